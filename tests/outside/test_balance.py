"""Centre of gravity, against the handbooks' worked examples and against numpy on random aircraft.

Moment sums are homogeneous: pounds and inches may stand for grams and millimetres.
"""

import liftgate as lg
import numpy as np
import pytest

EXACT = lg.Accuracy(scale_half_width_g=0.0, ruler_half_width_mm=0.0)


def part(mass, x, y=0.0, z=0.0, to_come=False):
    return lg.Part(name="part", mass_g=mass, x_mm=x, y_mm=y, z_mm=z, to_come=to_come)


def support(reading, x, y=0.0, z=0.0):
    return lg.Support(name="scale", reading_g=reading, x_mm=x, y_mm=y, z_mm=z)


def report(parts=(), supports=(), tilted=None, accuracy=EXACT, band=None):
    weighing = lg.Weighing(supports=list(supports), tilted=tilted) if supports else None
    return lg.balance_report(lg.BalanceInput(weighing=weighing, parts=list(parts), accuracy=accuracy, band=band))


def test_nose_wheel_weighing():
    """FAA-H-8083-1B, chapter 10: 340 lb on the nose wheel, 78 in ahead of the mains, 2006 lb in all: 13.2 in from the mains."""
    centre = report(supports=[support(340, 78), support(2006 - 340, 0)]).complete
    assert centre.mass_g == pytest.approx(2006)
    assert round(centre.x_mm, 1) == 13.2


def test_helicopter_loading():
    """FAA test figure 44: 1910 lb at 97.58 in."""
    centre = report([part(1495, 101.4), part(15, 100.5), part(240, 96), part(160, 64)]).complete
    assert centre.mass_g == 1910
    assert round(centre.x_mm, 2) == 97.58


def test_lateral_loading():
    """FAA-H-8083-1A, helicopter chapter (from memory, the sums close): 2253 lb, 93.74 in, -1.492 in.

    The sheet's lateral moments are added after rounding; its sum closes to half a hundredth.
    """
    parts = [part(1545, 101.4, 0.2), part(170, 64, 12.2), part(250, 64, -13.3), part(288, 96, -8.4)]
    centre = report(parts).complete
    assert centre.mass_g == 2253
    assert round(centre.x_mm, 2) == 93.74
    assert centre.y_mm == pytest.approx(-1.492, abs=0.005)


def test_metric_weighing():
    """Licence question bank: front 220 kg 2.00 m ahead of the axis, rear 980 kg 0.50 m behind, datum 3.40 m ahead: 3.4417 m."""
    centre = report(supports=[support(220, 3400 - 2000), support(980, 3400 + 500)]).complete
    assert centre.x_mm == pytest.approx(3441.7, abs=0.05)


def test_shift_by_moving_a_load():
    """FAA Pilot's Handbook: 8000 lb at 77.0 in, 100 lb from 30 to 150 in: 78.5 in."""
    now = lg.Centre(mass_g=8000, x_mm=77.0, y_mm=0.0, z_mm=None)
    moved = lg.move_part(lg.PartMove(centre=now, part_mass_g=100, dx_mm=120, dy_mm=0, dz_mm=0))
    assert moved.after.x_mm == pytest.approx(78.5, abs=1e-9)


def test_weight_to_shift():
    """FAA Pilot's Handbook: 7800 lb, from 81.5 to 80.5 in, arms 150 to 30 in: 65 lb."""
    assert lg.mass_to_shift(7800, 81.5, 80.5, 150, 30) == pytest.approx(65, abs=1e-9)


def test_ballast_at_one_arm():
    """FAA mechanic's test bank: 4954 lb at 30.5, limit 32.0, arm 162: 57.16 lb. The denominator has the required centre."""
    assert round(lg.ballast_at(4954, 30.5, 32.0, 162), 2) == 57.16


def test_random_parts_against_numpy(random):
    for _ in range(2_000):
        count = int(random.integers(1, 40))
        mass = random.uniform(1, 4_000, count)
        place = random.uniform(-2_500, 2_500, (count, 3))
        to_come = random.random(count) < 0.3
        parts = [part(m, *p, to_come=bool(t)) for m, p, t in zip(mass, place, to_come)]
        got = report(parts)
        want = np.average(place, axis=0, weights=mass)
        assert [got.complete.x_mm, got.complete.y_mm, got.complete.z_mm] == pytest.approx(want, abs=1e-6)
        assert got.complete.mass_g == pytest.approx(mass.sum(), rel=1e-12)
        if to_come.all():
            assert got.fitted is None
        else:
            fitted = np.average(place[~to_come], axis=0, weights=mass[~to_come])
            assert [got.fitted.x_mm, got.fitted.y_mm] == pytest.approx(fitted[:2], abs=1e-6)


def test_random_weighings_with_parts_against_numpy(random):
    for _ in range(2_000):
        count, more = int(random.integers(2, 9)), int(random.integers(0, 10))
        reading = random.uniform(1, 9_000, count)
        place = random.uniform(-2_000, 2_000, (count, 2))
        mass = random.uniform(1, 500, more)
        at = random.uniform(-2_000, 2_000, (more, 2))
        got = report(
            [part(m, *p) for m, p in zip(mass, at)], [support(r, *p) for r, p in zip(reading, place)]
        ).complete
        want = np.average(np.vstack([place, at]), axis=0, weights=np.concatenate([reading, mass]))
        assert [got.x_mm, got.y_mm] == pytest.approx(want, abs=1e-6)


def test_height_from_a_tilted_weighing(random):
    """A rigid body is weighed level and nose up by statics: each reading is what balances moments about the other support."""
    for _ in range(500):
        mass, x, z = random.uniform(4_000, 15_000), random.uniform(-100, 100), random.uniform(20, 300)
        front, rear, angle = random.uniform(200, 500), -random.uniform(100, 400), random.uniform(6, 30)
        tilt = np.radians(angle)
        # Places seen along the ground once the nose is up; the supports stand on the datum's level.
        along = lambda px, pz: px * np.cos(tilt) - pz * np.sin(tilt)
        level = mass * (x - rear) / (front - rear)
        nose_up = mass * (along(x, z) - along(rear, 0)) / (along(front, 0) - along(rear, 0))
        if not (0 <= nose_up <= mass and 0 <= level <= mass):
            continue
        tilted = lg.TiltedReadings(
            nose_up_deg=angle, angle_half_width_deg=0.0, readings_g=[nose_up, mass - nose_up]
        )
        got = report(supports=[support(level, front), support(mass - level, rear)], tilted=tilted).complete
        assert got.x_mm == pytest.approx(x, abs=1e-6)
        assert got.z_mm == pytest.approx(z, abs=1e-4)


def test_interval_holds_what_wrong_scales_and_rulers_give(random):
    """JCGM 100:2008: with every reading off by a uniform error within its bound, about 95 % of the centres lie inside."""
    reading, place = np.array([2_100.0, 3_450.0, 3_450.0]), np.array([[250.0, 0], [-80, -200], [-80, 200]])
    accuracy = lg.Accuracy(scale_half_width_g=8.0, ruler_half_width_mm=1.5)
    got = report(supports=[support(r, *p) for r, p in zip(reading, place)], accuracy=accuracy)
    tries = 20_000
    readings = reading + random.uniform(-8, 8, (tries, 3))
    places = place + random.uniform(-1.5, 1.5, (tries, 3, 2))
    centres = np.einsum("ti,tik->tk", readings, places) / readings.sum(axis=1)[:, None]
    for axis, half_width in ((0, got.half_width.x_mm), (1, got.half_width.y_mm)):
        middle = (got.complete.x_mm, got.complete.y_mm)[axis]
        inside = np.mean(np.abs(centres[:, axis] - middle) <= half_width)
        assert 0.93 <= inside <= 0.985, (axis, inside)


def test_figures_that_cannot_be_are_refused_with_their_name():
    with pytest.raises(lg.LiftgateError.Refused, match="part mass"):
        report([part(-1, 0)])
    with pytest.raises(lg.LiftgateError.Refused, match="not a number"):
        report([part(100, float("nan"))])
    with pytest.raises(lg.LiftgateError.Refused):
        report()
