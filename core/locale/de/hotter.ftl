# Der heißere Tag.
hotter-title = Der heißere Tag
hotter-hottest-flown = Heißester Tag, an dem noch geflogen würde
hotter-hottest-lately = Heißester der letzten dreißig Tage
hotter-day = Der Tag
hotter-air = Luft
hotter-airflow = Luftstrom, im Vergleich zum Schwebeflug
hotter-power = Leistung, im Vergleich zum letzten Schwebeflug
hotter-flight = Flug
