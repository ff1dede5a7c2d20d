"""Wire, against the gauge's definition, a published table and the resistances that real aircraft wire may have."""

import liftgate as lg
import numpy as np
import pytest

# Ohm per km at 20 C: ASTM B258 diameters, IEC 60028 copper; within 0.023 % of a published table.
SOLID = {10: 3.2770, 12: 5.2107, 14: 8.2853, 16: 13.1742, 20: 33.3083, 22: 52.9622}
# Ohm per 1000 ft at 20 C, most that stranded tinned aircraft wire may have (FAA AC 43.13-1B, table 11-9).
AIRCRAFT = {10: 1.26, 12: 2.02, 14: 3.06, 16: 4.81, 18: 6.23, 20: 9.88, 22: 16.20}


def test_gauge_diameters():
    """ASTM B258: each gauge is the 39th root of 92 thinner; gauge 36 is 0.127 mm and gauge 0000 is 11.684 mm."""
    gauges = np.arange(-3, 41)
    got = np.array([lg.gauge_diameter_mm(int(n)) for n in gauges])
    assert got == pytest.approx(np.geomspace(0.127 * 92, 0.127 * 92 ** (-4 / 39), 44), rel=1e-12)
    assert got[0] == pytest.approx(11.684, abs=5e-4)


@pytest.mark.parametrize("gauge, ohm", SOLID.items())
def test_solid_copper(gauge, ohm):
    assert lg.resistance_ohm_per_km(gauge, 20) == pytest.approx(ohm, rel=1e-4)


def test_copper_at_other_temperatures():
    """IEC 60028: 0.00393 per kelvin at 20 C."""
    for celsius in (-20, 0, 60, 105):
        ratio = lg.resistance_ohm_per_km(20, celsius) / lg.resistance_ohm_per_km(20, 20)
        assert ratio == pytest.approx(1 + 0.00393 * (celsius - 20), rel=1e-9)


@pytest.mark.parametrize("gauge, ohm_per_1000_ft", AIRCRAFT.items())
def test_the_stranded_factor_covers_real_aircraft_wire(gauge, ohm_per_1000_ft):
    real = ohm_per_1000_ft / 0.3048
    solid = lg.resistance_ohm_per_km(gauge, 20)
    # Sizes 18 and 20 are laid up with a little more copper than the gauge has.
    assert 0.96 < real / solid <= 1.28, "FAA AC 43.13-1B, table 11-9"


def run(**other):
    values = dict(gauge=20, length_m=1.0, current_a=3.0, source_v=14.0, conductor_c=20.0, stranded_factor=1.0)
    return lg.WireRun(**{**values, **other})


def test_allowed_drop():
    """FAA AC 43.13-1B: 0.5 V at 14 V, 1 V at 28 V, continuous."""
    assert lg.wire_run(run()).allowed_drop_v == pytest.approx(0.5)
    assert lg.wire_run(run(source_v=28.0)).allowed_drop_v == pytest.approx(1.0)


def test_drop_and_heat_there_and_back(random):
    for _ in range(500):
        gauge = int(random.choice(list(SOLID)))
        length, current = random.uniform(0.05, 3), random.uniform(0.1, 20)
        got = lg.wire_run(run(gauge=gauge, length_m=length, current_a=current, stranded_factor=1.28))
        ohm = 2 * length * SOLID[gauge] / 1_000 * 1.28
        assert got.drop_v == pytest.approx(ohm * current, rel=1e-4)
        assert got.heat_w == pytest.approx(ohm * current**2, rel=1e-4)
        assert (got.drop_v > got.allowed_drop_v) <= (got.grade == lg.Grade.STOP)


def test_a_chosen_wire_is_the_thinnest_that_will_do(random):
    for _ in range(300):
        wanted = run(length_m=random.uniform(0.1, 2), current_a=random.uniform(0.2, 12), source_v=random.uniform(6, 28))
        try:
            choice = lg.choose_wire(wanted)
        except lg.LiftgateError.Refused:
            continue
        assert choice.wire.drop_v <= choice.wire.allowed_drop_v
        assert wanted.current_a <= 0.75 * choice.fuse_a <= 0.75 * choice.wire.rated_a
        thinner = lg.wire_run(
            run(
                gauge=choice.wire.inputs.gauge + 2,
                length_m=wanted.length_m,
                current_a=wanted.current_a,
                source_v=wanted.source_v,
            )
        )
        too_thin = thinner.rated_a is None or thinner.rated_a < choice.fuse_a
        assert too_thin or thinner.drop_v > thinner.allowed_drop_v


def test_a_gauge_between_those_of_the_table_carries_what_the_next_thinner_one_does():
    """Common sense beside EEE-INST-002: a thicker wire carries no less. Outside of its table nothing is known, and that is no pass."""
    for between, thinner in [(7, 8), (9, 10), (11, 12), (13, 14), (15, 16), (25, 26)]:
        assert lg.wire_run(run(gauge=between)).rated_a == lg.wire_run(run(gauge=thinner)).rated_a
    assert lg.wire_run(run(gauge=13, current_a=100.0, length_m=0.01)).grade == lg.Grade.STOP
    for outside in (-3, 0, 5, 27, 40):
        got = lg.wire_run(run(gauge=outside, current_a=0.01, length_m=0.01))
        assert got.rated_a is None and got.grade == lg.Grade.CAUTION
