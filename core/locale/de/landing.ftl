# Der Landungseintrag.
landing-temperatures = Temperaturen
landing-in-this-order = in dieser Reihenfolge, innerhalb der ersten Minute
landing-anything-else = Sonst noch etwas
landing-other-places = Andere Stellen
landing-if-read = falls gemessen
landing-more-than = War es mehr als eine Landung?
landing-record = Landung eintragen
landing-title = Landung
landing-temperatures-spoken = { $place }: Temperaturen { $which }
landing-cooler = Kühler
landing-hotter = Heißer
landing-number-of = { $number } von { $count }, je eine Berührung
landing-once-more = noch einmal, beim Abkühlen
landing-reads = { $place } misst
landing-after-touchdown = { $time } nach dem Aufsetzen. Berühren, um sie wegzulassen
landing-read = Gemessen
landing-leave-out = { $what } weglassen
landing-read-so-far = Nach dieser Landung gemessen
landing-read-again-spoken = { $place } noch einmal messen
landing-again = { $place } noch einmal
landing-second-reading = Eine zweite Messung eine halbe Minute später zeigt, wie heiß es beim Aufsetzen war
landing-within = , ± { $within }
landing-past-stop-look = { "." } Über dem Halt: vor dem nächsten Flug ansehen
landing-past-caution-note = { "." } Über der Vorsicht
landing-at-touchdown = { $place } beim Aufsetzen
landing-worked-back =
    zurückgerechnet aus { $count ->
        [one] { $count } Messung
       *[other] { $count } Messungen
    }{ $within }{ $over }
landing-flown = Motor an, { $rpm } U/min, { $pack }
landing-not-asked = , hier nicht verlangt
landing-last = zuletzt { $last }{ $wanted }
landing-starts-at = beginnt bei { $start }{ $wanted }
landing-past-stop = Über dem Halt, { $limit }
landing-past-caution = Über der Vorsicht, { $limit }
landing-in-fahrenheit = {" "}In Fahrenheit wären es { $meant }.
landing-meant = {" "}War { $meant } gemeint?
landing-usual = { $low } bis { $high } ist hier üblich.{ $meant } Noch einmal ablesen
landing-charge-step-spoken = Entnommene Ladung: { $word } um 50 Milliamperestunden
landing-charge-used = Entnommene Ladung
landing-predicted = { $low } bis { $high } mAh war vorhergesagt
landing-nothing-noted = Im Flug wurde nichts gemerkt.
landing-noted-heading = Im Flug gemerkt
landing-noted = Gemerkt
landing-to-answer = Vor der nächsten Karte
landing-answers-hold = jedes braucht eine Antwort
landing-slip-how = War es verlesen: unten noch einmal ablesen oder weglassen
landing-raise-stop = Als Stopp melden
landing-raise-spoken = Befund melden: { $what }
landing-nothing-why = Nichts daran, denn
landing-nothing-typed = Nichts daran, wie getippt
landing-nothing-spoken = { $what }: nichts daran. { $words }
landing-answered = Beantwortet: { $words }
landing-is-a-finding = Ein Befund
landing-is-finding = Es ist Befund { $number }
landing-mark-finding = Ein Befund
