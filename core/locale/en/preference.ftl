# Language and units.
preference-title = Language and units
preference-language = Language
preference-temperatures = Temperatures
preference-celsius = Celsius, °C
preference-fahrenheit = Fahrenheit, °F
preference-measures = Lengths and masses
preference-metric = Metric: m, mm, kg, g
preference-imperial = Imperial: ft, in, lb, oz
preference-recorded-as-ever = The journal keeps its own units, whatever is chosen here. Both can be changed at any time.
preference-half-typed = Numbers that were typed and not recorded yet are given up when a unit changes.
