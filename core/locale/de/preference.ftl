# Sprache und Einheiten.
preference-title = Sprache und Einheiten
preference-language = Sprache
preference-temperatures = Temperaturen
preference-celsius = Celsius, °C
preference-fahrenheit = Fahrenheit, °F
preference-measures = Längen und Massen
preference-metric = Metrisch: m, mm, kg, g
preference-imperial = Angloamerikanisch: ft, in, lb, oz
preference-recorded-as-ever = Das Journal behält seine eigenen Einheiten, was immer hier gewählt ist. Beides lässt sich jederzeit ändern.
preference-half-typed = Getippte, noch nicht eingetragene Zahlen entfallen, wenn eine Einheit wechselt.
