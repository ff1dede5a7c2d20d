"""The phone as an instrument: windows and spectra against scipy.signal, a peak against a fitted parabola, the spectrum of uneven readings and balance by
vectors against numpy's least squares.

Published sources: Welch 1967 and Harris 1978, as scipy has them; Goodman 1964 for influence coefficients.
"""

import liftgate as lg
import numpy as np
import pytest
from scipy import signal

WINDOWS = {
    lg.Window.RECTANGULAR: "boxcar",
    lg.Window.HANN: "hann",
    lg.Window.BLACKMAN_HARRIS: "blackmanharris",
    lg.Window.FLAT_TOP: "flattop",
}


@pytest.mark.parametrize("ours, theirs", WINDOWS.items())
@pytest.mark.parametrize("length", [8, 255, 4096])
def test_windows(ours, theirs, length):
    assert lg.window_weights(ours, length) == pytest.approx(signal.get_window(theirs, length), rel=1e-9, abs=1e-15)


@pytest.mark.parametrize("ours, theirs", WINDOWS.items())
@pytest.mark.parametrize("segment, count", [(256, 5000), (1023, 1023), (1000, 9999), (777, 4000)])
@pytest.mark.parametrize("scaling, name", [(lg.Scaling.DENSITY, "density"), (lg.Scaling.POWER, "spectrum")])
def test_averaged_periodogram(random, ours, theirs, segment, count, scaling, name):
    rate = 12_000.0
    samples = 3 + random.standard_normal(count) + np.sin(2 * np.pi * 440 * np.arange(count) / rate)
    frequencies, expected = signal.welch(samples, rate, theirs, segment, scaling=name)
    got = lg.welch_spectrum(samples.tolist(), rate, segment, ours, scaling)
    assert np.arange(len(got.power)) * got.bin_hz == pytest.approx(frequencies, rel=1e-12)
    power = np.array(got.power)
    # The constant is taken out: what is left of it in the first bin of a plain window is rounding.
    floor = 1e-20 * power.max()
    assert np.abs(power - expected).max() <= 1e-9 * np.maximum(expected, floor / 1e-9).max()
    kept = expected > floor
    assert power[kept] == pytest.approx(expected[kept], rel=1e-9)


def test_peak_between_bins(random):
    for _ in range(100):
        top = random.uniform(1, 5)
        power = [random.uniform(0.1, top), top, random.uniform(0.1, top)]
        a, b, c = np.polyfit([-1, 0, 1], np.log(power), 2)
        peak = lg.interpolated_peak(power, 1)
        assert peak.bin == pytest.approx(1 - b / (2 * a), rel=1e-9)
        assert peak.height == pytest.approx(np.exp(c - b * b / (4 * a)), rel=1e-9)
    assert lg.interpolated_peak([3.0, 2.0, 3.0], 1) is None
    assert lg.interpolated_peak([3.0, 2.0], 0) is None


def test_a_tone_between_bins_is_read_to_a_few_hundredths():
    rate, segment = 1_000.0, 1_000
    for tone in np.linspace(100, 101, 21):
        samples = np.sin(2 * np.pi * tone * np.arange(4000) / rate + 0.3)
        got = lg.welch_spectrum(samples.tolist(), rate, segment, lg.Window.HANN, lg.Scaling.POWER)
        peak = lg.interpolated_peak(got.power, int(np.argmax(got.power)))
        assert peak.bin * got.bin_hz == pytest.approx(tone, abs=0.02)


def test_velocity_from_uneven_readings(random):
    """Weighted least squares by numpy, piece by piece, at the moments of reading."""
    t_ns = np.cumsum(random.integers(2_000_000, 3_000_000, 2000))
    acceleration = 9.8 + random.standard_normal(2000) + 2 * np.sin(2 * np.pi * 22 * t_ns * 1e-9)
    got = lg.velocity_spectrum(t_ns.tolist(), acceleration.tolist(), 10, 60, 1.6)
    step_ns, squares, pieces = int(1.6e9), np.zeros(len(got.mm_s)), 0
    while pieces * 0.8e9 + 1.6e9 <= t_ns[-1] - t_ns[0]:
        start = t_ns[0] + int(pieces * 0.8e9)
        here = (t_ns >= start) & (t_ns < start + step_ns)
        t = (t_ns[here] - start) * 1e-9
        root = np.sin(np.pi * t / 1.6)
        for k in range(len(squares)):
            x = 2 * np.pi * (10 + k / 1.6) * t
            design = np.stack([np.ones_like(t), np.cos(x), np.sin(x)], axis=1)
            solved = np.linalg.lstsq(design * root[:, None], acceleration[here] * root, rcond=None)[0]
            squares[k] += solved[1] ** 2 + solved[2] ** 2
        pieces += 1
    hz = 10 + np.arange(len(squares)) / 1.6
    expected = np.sqrt(squares / pieces / 2) / (2 * np.pi * hz) * 1e3
    assert got.mm_s == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("points, planes", [(1, 1), (4, 1), (2, 2), (5, 2)])
def test_balance_by_vectors(random, points, planes):
    def vectors(size):
        return random.uniform(0.5, 4, size) * np.exp(1j * random.uniform(0, 2 * np.pi, size))

    def out(values):
        return [lg.Vector(length=float(abs(v)), angle_deg=float(np.degrees(np.angle(v)))) for v in values]

    def back(given):
        return np.array([v.length * np.exp(1j * np.radians(v.angle_deg)) for v in given])

    for _ in range(50):
        first, masses, runs = vectors(points), vectors(planes), vectors((planes, points))
        influence = ((runs - first) / masses[:, None]).T
        scaled = influence / np.linalg.norm(influence, axis=0)
        if np.linalg.cond(scaled) > 20:
            continue
        trials = [lg.TrialRun(mass=out([mass])[0], vibration=out(run)) for mass, run in zip(masses, runs)]
        got = lg.vector_correction(out(first), trials)
        expected = np.linalg.lstsq(influence, -first, rcond=None)[0]
        assert back(got.masses) == pytest.approx(expected, rel=1e-9)
        assert back(got.left) == pytest.approx(first + influence @ expected, abs=1e-9)
        assert got.condition == pytest.approx(np.linalg.cond(scaled), rel=1e-9)
