# The hotter day.
hotter-title = The hotter day
hotter-hottest-flown = Hottest you would fly
hotter-hottest-lately = Hottest of thirty days
hotter-day = The day
hotter-air = Air
hotter-airflow = Airflow, of a hover's
hotter-power = Power, of the last hover's
hotter-flight = Flight
