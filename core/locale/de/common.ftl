# Was jede Seite hat.
