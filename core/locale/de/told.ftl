# Wie lange der Motor lief, wie der Pilot es sagt.

told-heading = Wie lange der Motor lief
told-both-kept = Was das Telefon gezählt hat, bleibt daneben stehen
told-not-right = Die Zeit stimmt nicht
told-as-counted = Es waren { $time }, wie gezählt
told-long-why = Lief die Uhr weiter? Bis das gesagt ist, zählt nur so viel als Motorzeit, wie Plan und Akku erklären. Der Zeitmesser des Senders oder das Log des Aufzeichners weiß es
told-doubted = { $planned }. Länger, als sein kann: Sag, wie lange es war
told-counted = { $planned }. Wie der Pilot sagt; das Telefon zählte { $counted }
told-not-counted = { $planned }. Wie der Pilot sagt; kein Telefon zählte es
told-no-phone = Ohne das Telefon geflogen
told-no-phone-when = Wenn das Telefon leer war oder ein Papier benutzt wurde
told-no-phone-how = Für einen Lauf, den ein Papier oder eine andere Uhr festhielt. Er wird mit dem eingetragen, was diese Karte sagt, auch Akku, Luft und Minuten; was vor einer Übergabe gilt, gilt auch dafür
told-ago = Minuten, seit er gelandet ist
told-ago-first = Erst eintragen, wie lange die Landung her ist: Messwerte zählen danach
told-record = So wurde geflogen
told-down-at = Oder die Uhrzeit der Landung, wie 14:32
told-no-time-of-day = „{ $text }“ ist keine Uhrzeit: schreib sie wie 14:32
told-that-is = Das ist { $ago } h her
told-noted = Im Flug vermerkt, wie das Papier sagt
told-noted-at = { $what }: Minuten, nachdem der Motor anlief
told-noted-when = Eintragen, wann „{ $what }“ etwa vermerkt wurde
told-noted-late = „{ $what }“ ist später vermerkt, als der Motor lief
told-read-after = Minuten von der Landung bis zu den Messwerten unten
told-read-after-how = Von einem Papier: vor jedem Messwert eintragen, der zu einer anderen Zeit genommen wurde. Leer zählt ein Messwert als jetzt gelesen
