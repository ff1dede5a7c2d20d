"""Flight packs, against IEC 61960's two loads and closed forms."""

import liftgate as lg
import numpy as np
import pytest
from scipy.stats import linregress


def test_internal_resistance():
    """IEC 61960: (U1 - U2)/(I2 - I1); 22.92 V at 1 A, 22.68 V at 5 A: 0.0600 ohm."""
    got = lg.internal_resistance(
        lg.TwoLoads(low_a=1, low_load_v=22.92, high_a=5, high_load_v=22.68, cells=6, voltmeter_half_width_v=0.005)
    )
    assert got.pack_ohm == pytest.approx(0.06)
    assert got.cell_ohm == pytest.approx(0.01)


def test_ripple_of_two_shapes():
    """Root of the mean square over one period, by numpy; 10 A triangle peak to peak: 2.88675 A."""
    turn = np.linspace(0, 1, 200_001)[:-1]
    sine = 5 * np.sin(2 * np.pi * turn)
    triangle = 10 * np.abs(turn - 0.5) * 2 - 5
    assert lg.ripple_rms(10, lg.RippleShape.SINE) == pytest.approx(np.sqrt(np.mean(sine**2)), rel=1e-9)
    assert lg.ripple_rms(10, lg.RippleShape.TRIANGLE) == pytest.approx(np.sqrt(np.mean(triangle**2)), rel=1e-6)
    assert lg.ripple_rms(10, lg.RippleShape.TRIANGLE) == pytest.approx(2.88675, abs=5e-6)


def test_resistance_trend_against_linregress(random):
    for _ in range(100):
        cycles = np.sort(random.uniform(0, 300, int(random.integers(4, 40))))
        ohm = 0.05 + 1e-4 * cycles + random.normal(0, 5e-4, len(cycles))
        got = lg.resistance_trend([lg.ResistanceReading(cycles=c, pack_ohm=o) for c, o in zip(cycles, ohm)])
        line = linregress(cycles, ohm)
        assert got.ohm_per_cycle == pytest.approx(line.slope, rel=1e-9)
        assert got.new_ohm == pytest.approx(line.intercept, rel=1e-9)


def test_landing_in_closed_form():
    got = lg.pack_after_landing(
        lg.PackLanding(capacity_mah=5_000, used_mah=3_500, flown_min=7, cells_v=[3.82, 3.80, 3.81], reserve_percent=20)
    )
    assert got.left_percent == pytest.approx(30)
    assert got.average_a == pytest.approx(3.5 * 60 / 7)
    assert (got.lowest.number, got.lowest.cell_v) == (2, 3.80)
    assert got.spread_v == pytest.approx(0.02)
