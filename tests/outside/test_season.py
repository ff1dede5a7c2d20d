"""The season's entries fit the log that goes with them: what a careful person would have read off the recorder is what the season enters.

Neither is proof of anything: both are invented. The reference is the reading of the file by polars, and the trapezoid rule.
"""
import subprocess
import sys
import tomllib
from pathlib import Path

import numpy
import polars
import pytest

DEMO = Path(__file__).resolve().parents[2] / "demo-data"
SEASON = tomllib.loads((DEMO / "season.toml").read_text())
LOGS = SEASON["logs"]


def flight_of(name: str) -> dict:
    return next(flight for flight in SEASON["flights"] if flight["check"] == LOGS[name]["flight"])


def recorded(name: str) -> polars.DataFrame:
    """The rows that are whole: the last one was torn when the plug was pulled."""
    return polars.read_csv(DEMO / "logs" / name, infer_schema_length=None, ignore_errors=True, truncate_ragged_lines=True).drop_nulls()


@pytest.mark.parametrize("name", LOGS)
def test_charge_time_and_current_are_those_of_the_log(name):
    log, flight = recorded(name), flight_of(name)
    seconds = log["Time [ms]"].to_numpy() / 1000
    amperes = log["Current [A]"].to_numpy().astype(float)
    used_mah = float(numpy.trapezoid(amperes, seconds)) / 3.6
    assert float(flight["used_mah"]) == pytest.approx(used_mah, rel=0.01)
    turning = log["Motor speed [rpm]"].to_numpy() > 0
    off_the_ground = log["Sw 3"].to_numpy() == 1
    assert flight["seconds"] == pytest.approx(seconds[off_the_ground][-1] - seconds[turning][0], abs=3)
    # The highest current that lasted a second: the least of each eight rows, and the most of those.
    lasting = numpy.lib.stride_tricks.sliding_window_view(amperes, 8).min(axis=1).max()
    entered = float(SEASON["checks"]["Peak current in the hardest flight"]["reading"])
    assert lasting - 1 <= entered <= amperes.max() + 1


@pytest.mark.parametrize("name", LOGS)
def test_temperatures_at_touchdown_are_those_of_the_log(name):
    log, flight = recorded(name), flight_of(name)
    down = log.filter(polars.col("Sw 3") == 1).tail(1)
    sensors = {column["column"]: column["said"] for column in LOGS[name]["columns"] if "measured" in column["asked"]}
    assert sensors
    for column, place in sensors.items():
        assert float(flight["heat"][place]) == pytest.approx(down[column].item(), abs=1), place
    assert log[next(iter(sensors))][0] == pytest.approx(float(flight["air_c"]), abs=2)


@pytest.mark.parametrize("name", LOGS)
def test_the_script_makes_the_log_that_is_there(name, tmp_path):
    made = subprocess.run([sys.executable, DEMO / "logs" / name.replace(".csv", ".py")], capture_output=True, check=True).stdout
    assert made == (DEMO / "logs" / name).read_bytes()
