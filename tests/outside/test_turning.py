"""Unbalance, frequencies and gears, against the standards' formulas and published worked examples."""

import cmath

import liftgate as lg
import numpy as np
import pytest
from pyPRB import MassVector, StaticBalancing, VibrationVector

# ISO 21940-11: U_per = 1000 G m / omega, g mm. Grade mm/s, mass kg, speed rpm, g mm.
PERMISSIBLE = [(6.3, 1, 3_000, 20.0535), (6.3, 0.45, 1_800, 15.0401), (2.5, 0.12, 9_000, 0.31831)]


@pytest.mark.parametrize("grade, mass, rpm, gmm", PERMISSIBLE)
def test_permissible_unbalance(grade, mass, rpm, gmm):
    got = lg.permissible_unbalance(
        lg.RotatingPart(mass_kg=mass, speed_rpm=rpm, grade_mm_s=grade, correction_radius_mm=50, measured_gmm=None)
    )
    assert got.permissible_gmm == pytest.approx(gmm, rel=1e-5)


def test_single_plane_correction():
    """Brueel and Kjaer's application note (pyPRB 1.0.0 agrees): 3.4 at 116 deg, 2.0 g at 0 gives 1.8 at 42: 2.0117 g at -30.789."""
    run = lg.SinglePlaneRun(
        first=lg.Polar(size=3.4, angle_deg=116),
        trial_g=lg.Polar(size=2.0, angle_deg=0),
        with_trial=lg.Polar(size=1.8, angle_deg=42),
        with_rotation=True,
        is_lag=False,
    )
    got = lg.single_plane_correction(run).correction_g
    assert got.size == pytest.approx(2.0117, abs=5e-5)
    assert (got.angle_deg + 180) % 360 - 180 == pytest.approx(-30.789, abs=5e-4)


def test_random_corrections_cancel_the_vibration(random):
    """A machine that answers in proportion: what the first run showed is gone with the correction on."""
    for _ in range(500):
        answer = cmath.rect(random.uniform(0.2, 3), random.uniform(0, 2 * np.pi))
        first = cmath.rect(random.uniform(0.5, 9), random.uniform(0, 2 * np.pi))
        trial = cmath.rect(random.uniform(0.5, 4), random.uniform(0, 2 * np.pi))
        polar = lambda z: lg.Polar(size=abs(z), angle_deg=np.degrees(cmath.phase(z)))
        got = lg.single_plane_correction(
            lg.SinglePlaneRun(
                first=polar(first),
                trial_g=polar(trial),
                with_trial=polar(first + answer * trial),
                with_rotation=True,
                is_lag=False,
            )
        ).correction_g
        left = first + answer * cmath.rect(got.size, np.radians(got.angle_deg))
        assert abs(left) < 1e-9 * abs(first) + 1e-9


@pytest.mark.parametrize("turns", (1, -1), ids=("anticlockwise", "clockwise"))
@pytest.mark.parametrize("counted", (1, -1), ids=("anticlockwise", "clockwise"))
@pytest.mark.parametrize("is_lag", (True, False), ids=("lag", "lead"))
def test_a_correction_in_every_sense_of_rotation_angles_and_phase(random, turns, counted, is_lag):
    """Balancing in place (ISO 21940-13), played in time: weights sit on a rotor at angles seen from above, a sensor beside it reads the
    shake once per turn with the lag of what carries it, and its phase is taken from the mark's pulse to the peak. The correction is
    fitted where the same counting puts it. In the right senses nothing is left; in the wrong one of the phase much is."""
    left, left_wrong = [], []
    for _ in range(200):
        sensor, lag, gain = random.uniform(0, 2 * np.pi), random.uniform(0, np.pi), random.uniform(0.5, 3)

        def reading(weights):
            time = np.arange(720) / 720  # of one turn, from the mark's pulse
            shake = sum(
                size * gain * np.cos(2 * np.pi * time + turns * (angle - sensor) - lag) for size, angle in weights
            )
            once = np.fft.rfft(shake)[1] * 2 / len(time)
            peak_deg = np.degrees(-np.angle(once))  # how far the rotor turns from the mark's pulse to the peak
            return lg.Polar(size=abs(once), angle_deg=peak_deg if is_lag else -peak_deg)

        def seen_from_above(counted_deg):
            return counted * np.radians(counted_deg)

        unbalance = (random.uniform(0.5, 4), random.uniform(0, 2 * np.pi))
        trial_g, trial_deg = random.uniform(0.5, 2), random.uniform(-180, 180)
        first = reading([unbalance])

        def still_there(told_is_lag):
            run = lg.SinglePlaneRun(
                first=first,
                trial_g=lg.Polar(size=trial_g, angle_deg=trial_deg),
                with_trial=reading([unbalance, (trial_g, seen_from_above(trial_deg))]),
                with_rotation=turns == counted,
                is_lag=told_is_lag,
            )
            fit = lg.single_plane_correction(run).correction_g
            return reading([unbalance, (fit.size, seen_from_above(fit.angle_deg))]).size / first.size

        left.append(still_there(is_lag))
        left_wrong.append(still_there(not is_lag))
    assert max(left) < 1e-9
    assert np.median(left_wrong) > 0.5 and max(left_wrong) > 1.0


def test_random_corrections_against_pyprb(random):
    """pyPRB 1.0.0, one-plane balancing after the same application note, on the same readings."""
    for _ in range(2_000):
        first, with_trial = random.uniform(0.5, 9, 2)
        trial = random.uniform(0.5, 4)
        angles = random.uniform(-180, 180, 3)
        theirs = StaticBalancing(
            VibrationVector(first, angles[0]), VibrationVector(with_trial, angles[1]), MassVector(trial, angles[2])
        ).compute_compensation(repr=False)
        ours = lg.single_plane_correction(
            lg.SinglePlaneRun(
                first=lg.Polar(size=first, angle_deg=angles[0]),
                trial_g=lg.Polar(size=trial, angle_deg=angles[2]),
                with_trial=lg.Polar(size=with_trial, angle_deg=angles[1]),
                with_rotation=True,
                is_lag=False,
            )
        ).correction_g
        assert ours.size == pytest.approx(theirs.amplitude, rel=1e-9)
        assert (ours.angle_deg - theirs.phase + 180) % 360 - 180 == pytest.approx(0, abs=1e-7)


@pytest.mark.parametrize("factor, below, above", [(5, 22.143, 12.143), (10, 25.0, 15.0), (20, 26.0, 16.0), (2.4, 0.0, 0.0)])
def test_separation_margin(factor, below, above):
    """API 684: one that runs below the critical speed min(26, 10 + 17(1 - 1/(AF - 1.5))), one above it min(16, the same less 10)."""
    got = lg.separation_margin(factor)
    assert got.below_percent == pytest.approx(below, abs=5e-4)
    assert got.above_percent == pytest.approx(above, abs=5e-4)


def test_magnification(random):
    """One mode, closed form: 1/sqrt((1 - r^2)^2 + (2 zeta r)^2), against the steady state of its own equation of motion."""
    for ratio, damping in zip(random.uniform(0.1, 3, 200), random.uniform(0.01, 0.5, 200)):
        # m x'' + c x' + k x = k e^{i r w t}, with w = 1: x = 1/(1 - r^2 + 2 i zeta r).
        assert lg.magnification(ratio, damping) == pytest.approx(abs(1 / (1 - ratio**2 + 2j * damping * ratio)))


def test_drive_frequencies(random):
    """Blade passage = blades x rpm / 60 (NASA TM 80200); gears by their teeth; a motor's electrical turns by its pole pairs."""
    for _ in range(300):
        driver, driven = int(random.integers(10, 30)), int(random.integers(80, 220))
        blades, tail_blades, pairs = (int(n) for n in random.integers([2, 2, 3], [6, 10, 12]))
        tail, rpm = random.uniform(2, 8), random.uniform(500, 2_400)
        train = lg.DriveTrain(
            stages=[lg.GearStage(driver_teeth=driver, driven_teeth=driven, idler_teeth=None, belt_teeth=None)],
            tail_ratio=tail,
            main_blades=blades,
            tail_blades=tail_blades,
            pole_pairs=pairs,
        )
        got = lg.drive_speeds(train, rpm)
        motor = rpm * driven / driver
        assert got.motor_rpm == pytest.approx(motor)
        assert got.main_blade_hz == pytest.approx(blades * rpm / 60)
        assert got.tail_blade_hz == pytest.approx(tail_blades * tail * rpm / 60)
        assert got.electrical_hz == pytest.approx(pairs * motor / 60)
        assert got.mesh_hz == pytest.approx([driver * motor / 60])


def test_two_stages_idler_and_belt(random):
    """Frequencies by counting: a train turned in steps of one tooth, its events counted over whole turns of the head."""
    for _ in range(60):
        teeth = [int(n) for n in random.integers([10, 30, 10, 60], [24, 70, 24, 160])]
        idler, belt, rpm = int(random.integers(12, 60)), int(random.integers(80, 300)), random.uniform(500, 2_000)
        train = lg.DriveTrain(
            stages=[lg.GearStage(driver_teeth=teeth[0], driven_teeth=teeth[1], idler_teeth=idler, belt_teeth=belt),
                    lg.GearStage(driver_teeth=teeth[2], driven_teeth=teeth[3], idler_teeth=None, belt_teeth=None)],
            tail_ratio=4.0, main_blades=2, tail_blades=2, pole_pairs=5)
        got = lg.drive_speeds(train, rpm)
        # In lcm turns of the head every wheel comes back: whole numbers of teeth have passed each mesh.
        turns = np.lcm.reduce([teeth[0], teeth[1], teeth[2], idler, belt])
        second = turns * teeth[3]
        middle = second // teeth[2]
        first = middle * teeth[1]
        seconds = turns / (rpm / 60)
        assert got.mesh_hz == pytest.approx([first / seconds, second / seconds])
        assert got.motor_hz == pytest.approx(first / teeth[0] / seconds)
        assert [(t.stage, t.turns_hz) for t in got.idlers] == [(1, pytest.approx(first / idler / seconds))]
        assert [(t.stage, t.turns_hz) for t in got.belts] == [(1, pytest.approx(first / belt / seconds))]
        orders = {e.name: e.order for e in lg.drive_exciters(train)}
        assert orders["shaft 1"] == pytest.approx(middle / turns)


def test_the_governor_against_a_solved_circuit(random):
    """Pack, leads and motor as one loop solved with numpy, for the speed at which full throttle just holds the load."""
    for _ in range(200):
        ratio, kv, cells = random.uniform(5, 14), random.uniform(200, 600), int(random.integers(6, 15))
        motor, pack, current, rpm = random.uniform(0.005, 0.05), random.uniform(0.005, 0.05), random.uniform(20, 150), random.uniform(700, 1600)
        rest = 3.7 * cells
        if rest - current * pack < 1:
            continue
        # Unknowns: terminal voltage and what the motor makes against it.
        v, e = np.linalg.solve([[1, 0], [1, -1]], [rest - pack * current, motor * current])
        got = lg.governor(lg.GovernorQuestion(ratio=ratio, motor_rpm_per_v=kv, motor_ohm=motor, end_rest_v=rest, pack_ohm=pack, current_a=current, head_rpm=rpm))
        assert got.reachable_rpm == pytest.approx(max(kv * e / ratio, 0))
        assert got.loaded_v == pytest.approx(v)


def test_what_a_drive_holds(random):
    """The least of its parts, told again; and no part that bears more makes anything worse."""
    names = ["motor_continuous_a", "motor_burst_a", "pack_continuous_a", "pack_burst_a", "controller_continuous_a"]
    for _ in range(300):
        values = dict(zip(names, (float(v) for v in random.uniform(20, 400, 5))))
        duty, current = random.uniform(0.4, 1), random.uniform(10, 300)
        got = lg.drive_hold(lg.DriveRatings(**values), duty)
        forever = [duty * values["motor_continuous_a"], values["pack_continuous_a"], values["controller_continuous_a"] * 2 / 3]
        seconds = [max(duty * values["motor_burst_a"], forever[0]), max(values["pack_burst_a"], forever[1]), values["controller_continuous_a"]]
        assert got.continuous_a == pytest.approx(min(forever)) and got.burst_a == pytest.approx(min(seconds))
        grade = lg.drive_grade(got, current).value
        assert grade == (lg.Grade.STOP if current > min(seconds) else lg.Grade.CAUTION if current > min(forever) else lg.Grade.OK).value
        for name in names:
            more = lg.drive_hold(lg.DriveRatings(**{**values, name: values[name] * 1.5}), duty)
            assert more.continuous_a >= got.continuous_a and more.burst_a >= got.burst_a and lg.drive_grade(more, current).value <= grade
