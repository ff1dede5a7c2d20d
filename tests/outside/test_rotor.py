"""Rotor and tail, against closed forms and against small rotors that were measured.

The measured tables are in core/tests/data; each names its report.
"""

import csv
from pathlib import Path

import liftgate as lg
import numpy as np
import pytest
from scipy.optimize import brentq

DATA = Path(__file__).resolve().parents[2] / "core" / "tests" / "data"


def test_momentum_theory():
    """Momentum theory (closed form, g = 9.80665): 11 kg, D 2.0 m: v_h 3.74368 m/s, 403.843 W; at 1.0066 kg/m3 445.504 W."""
    sea = lg.momentum_hover(11 * 9.80665, 1.0, 1.225)
    assert sea.induced_m_s == pytest.approx(3.74368, rel=1e-5)
    assert sea.ideal_w == pytest.approx(403.843, rel=1e-5)
    assert lg.momentum_hover(11 * 9.80665, 1.0, 1.0066).ideal_w == pytest.approx(445.504, rel=1e-5)


def test_profile_power():
    """Constant drag (closed form): sigma 0.05, Cd0 0.0113, R 0.8 m, 1800 rpm, 1.225 kg/m3: 596.48 W."""
    assert lg.profile_power(0.05, 0.0113, 0.8, 1_800, 1.225) == pytest.approx(596.48, rel=1e-4)


@pytest.mark.parametrize("degrees, coefficient", [(5, 0.00312), (8, 0.00622), (12, 0.01094)])
def test_uniform_inflow(degrees, coefficient):
    """Untwisted blade, uniform inflow: y^2 + A y/(2 sqrt 2) - A theta/3 = 0, y = sqrt C_T, solved by scipy."""
    slope = 0.1061 * 2 * np.pi / 2
    root = brentq(lambda y: y * y + slope / (2 * 2**0.5) * y - slope * np.radians(degrees) / 3, 0, 1)
    got = lg.uniform_inflow_thrust(0.1061, 2 * np.pi, degrees)
    assert got == pytest.approx(root**2, rel=1e-9)
    assert round(got, 5) == coefficient


def test_tail():
    """Closed form: 1200 W at 1600 rpm is 7.16197 N m, over 0.95 m 7.53892 N; D 0.30 m: v_h 6.5979 m/s, 49.741 W ideal."""
    got = lg.tail_rotor(
        lg.TailQuestion(
            main_power_w=1_200,
            head_speed_rpm=1_600,
            arm_m=0.95,
            tail_diameter_m=0.30,
            density_kg_m3=1.225,
            kind=lg.TailKind.OPEN(),
            figure_of_merit=0.5,
        )
    )
    assert got.main_torque_nm == pytest.approx(7.16197, rel=1e-5)
    assert got.thrust_n == pytest.approx(7.53892, rel=1e-5)
    assert got.induced_m_s == pytest.approx(6.5979, rel=1e-4)
    assert got.ideal_w == pytest.approx(49.741, rel=1e-4)
    assert got.power_w == pytest.approx(2 * 49.741, rel=1e-4)


@pytest.mark.parametrize("height, thrust, power", [(0.5, 1.33333, 0.62514), (1, 1.06667, 0.87385), (2, 1.01587, 0.97037)])
def test_ground_effect(height, thrust, power):
    """Cheeseman and Bennett, ARC R&M 3021, 1955; Hayden 1976."""
    got = lg.ground_effect(height)
    assert got.thrust_ratio == pytest.approx(thrust, abs=1e-5)
    assert got.induced_power_ratio == pytest.approx(power, abs=1e-5)


def test_tip():
    """Closed form: R 0.8 m at 1800 rpm and 15 C: 150.7964 m/s, Mach 0.44314."""
    rotor = lg.Rotor(blades=2, radius_m=0.8, chord_m=0.0628, root_fraction=0.15, twist_deg=0, polar=lg.small_symmetric_section())
    loads = lg.rotor_loads(
        lg.RotorPoint(rotor=rotor, air=lg.standard_air(0), speed_rpm=1_800, collective_deg=6, climb_m_s=0)
    )
    assert loads.tip_speed_m_s == pytest.approx(150.7964, rel=1e-6)
    assert loads.tip_mach == pytest.approx(0.44314, rel=1e-4)


def rows(name):
    with open(DATA / name, newline="") as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


def measured_rotor(blades):
    """The rotor of NACA TN-626, 1937: D 5 ft, chord 2 in, NACA 0015, untwisted, root of the contour 16.7 % R, about 960 rpm."""
    return lg.Rotor(
        blades=blades, radius_m=0.762, chord_m=0.0508, root_fraction=0.167, twist_deg=0, polar=lg.small_symmetric_section()
    )


def test_measured_small_rotor_thrust_and_power():
    """NACA TN-626, 1937, two to five blades, 6 degrees of pitch and more; thrust and torque to 1 %. The report's coefficients are twice today's.

    Thrust within 3 % in the mean is what was asked for. The other bounds stand a little above what was measured when they were set.
    """
    off, blade_counts, at_thrust = [], [], []
    air = lg.standard_air(0)
    for row in rows("naca_tn626.csv"):
        pitch = float(row["pitch_deg"])
        if pitch < 6:
            continue
        rotor = measured_rotor(int(row["blades"]))
        loads = lg.rotor_loads(lg.RotorPoint(rotor=rotor, air=air, speed_rpm=960, collective_deg=pitch, climb_m_s=0))
        off.append((loads.thrust_coefficient / thrust(row) - 1, loads.power_coefficient / power(row) - 1))
        blade_counts.append(rotor.blades)
        at_thrust.append(power_at(rotor, air, 960, thrust(row)) / power(row) - 1)
    off, blade_counts, at_thrust = np.array(off), np.array(blade_counts), np.array(at_thrust)
    assert len(off) == 19
    assert abs(off[:, 0].mean()) < 0.03, off  # -0.020
    assert np.abs(off[:, 0]).max() < 0.065, off  # 0.060
    for blades in (2, 3, 4, 5):
        assert abs(off[blade_counts == blades, 0].mean()) < 0.04, (blades, off)  # -0.033, -0.016, -0.025, -0.001
    assert abs(off[:, 1].mean()) < 0.035 and np.abs(off[:, 1]).max() < 0.11, off  # -0.033, 0.105
    # What a hover asks for is power at a thrust.
    assert abs(at_thrust.mean()) < 0.015 and np.abs(at_thrust).max() < 0.05, at_thrust  # -0.008, 0.045


def power_at(rotor, air, rpm, thrust_coefficient):
    """The power coefficient of a hover at a thrust coefficient."""
    tip = rotor.radius_m * rpm * np.pi / 30
    newton = thrust_coefficient * air.density_kg_m3 * np.pi * rotor.radius_m**2 * tip**2
    question = lg.HoverQuestion(rotor=rotor, air=air, speed_rpm=rpm, mass_kg=newton / 9.80665, download_fraction=0, climb_m_s=0)
    return lg.hover_power(question).loads.power_coefficient


# A rotor of four blades that nobody here had used: R 32.5 in, solidity .098, power and thrust coefficients in hover, read off a figure of
# Leishman's Principles of Helicopter Aerodynamics, at second hand. Twist, root and head speed are not in it: -12 degrees, 20 % R and
# 2000 rpm, from memory.
LEISHMAN = [
    (0.0027, 0.00022),
    (0.0033, 0.00026),
    (0.0041, 0.00032),
    (0.0050, 0.00039),
    (0.0061, 0.00050),
    (0.0067, 0.00056),
    (0.0073, 0.00063),
    (0.0080, 0.00071),
    (0.0088, 0.00082),
]


@pytest.mark.parametrize("rpm", [1_500, 2_000])
def test_power_of_a_rotor_that_nothing_was_chosen_by(rpm):
    """Power at the measured thrust reads 8.6 to 10.5 % high in the mean, by the head speed, and 12.2 % at worst: on the careful side."""
    rotor = lg.Rotor(
        blades=4, radius_m=0.8255, chord_m=0.0635, root_fraction=0.2, twist_deg=-12, polar=lg.small_symmetric_section()
    )
    assert rotor.blades * rotor.chord_m / (np.pi * rotor.radius_m) == pytest.approx(0.098, abs=1e-4)
    air = lg.standard_air(0)
    off = np.array([power_at(rotor, air, rpm, ct) / cp - 1 for ct, cp in LEISHMAN])
    print(f"{rpm} rpm: mean {100 * off.mean():+.1f} %, worst {100 * np.abs(off).max():.1f} %")
    assert 0.07 < off.mean() < 0.12, off
    assert np.abs(off).max() < 0.13, off


def test_a_fan_in_a_shroud_that_was_measured():
    """The X-22A's ducted propeller (NASA TN D-4142, three blades, 7 ft), static, blade angle 19 degrees at 75 % R: C_T .30 and C_P .118 as a
    propeller's coefficients, read off the report's figure at second hand, good to some 5 %.

    Its power lies between the ideal of an open rotor and that of a straight duct, as the model's two kinds of tail do. A figure of merit of
    0.79 in a straight duct makes the model's power the measured one; the 0.5 taken for a small tail reads that much too high.
    """
    measured_ct, measured_cp, diameter, rate = 0.30, 0.118, 2.1336, 20.0
    newton = measured_ct * 1.225 * rate**2 * diameter**4
    watt = measured_cp * 1.225 * rate**3 * diameter**5

    def tail(kind, merit):
        # One metre of arm and the torque of that thrust: the tail makes the fan's thrust.
        main_rpm = 60.0
        question = lg.TailQuestion(
            main_power_w=newton * 2 * np.pi,
            head_speed_rpm=main_rpm,
            arm_m=1.0,
            tail_diameter_m=diameter,
            density_kg_m3=1.225,
            kind=kind,
            figure_of_merit=merit,
        )
        report = lg.tail_rotor(question)
        assert report.thrust_n == pytest.approx(newton, rel=1e-9)
        return report.power_w

    straight = lg.TailKind.SHROUDED(wake_area_ratio=1.0)
    assert tail(straight, 1.0) < watt < tail(lg.TailKind.OPEN(), 1.0)
    assert tail(straight, 1.0) / watt == pytest.approx(0.79, abs=0.01)
    assert tail(straight, 0.5) / watt == pytest.approx(1.57, abs=0.02)


# NACA 0015 at a Reynolds number of 160,000: Sheldahl and Klimas, SAND80-2114 (1981), at second hand: degrees, lift, drag.
SECTION = [
    (0, 0.0, 0.0115),
    (2, 0.2200, 0.0120),
    (4, 0.4400, 0.0132),
    (5, 0.5500, 0.0142),
    (6, 0.6299, 0.0160),
    (7, 0.7150, 0.0176),
    (8, 0.7851, 0.0193),
    (9, 0.8311, 0.0212),
    (10, 0.8322, 0.0233),
]


@pytest.mark.parametrize("degrees, measured_lift, measured_drag", SECTION)
def test_section(degrees, measured_lift, measured_drag):
    """The section that every rotor here is made of: lift within 4 % of the table, drag within 12 %. Its least drag is another report's."""
    polar, alpha = lg.small_symmetric_section(), np.radians(degrees)
    assert section_lift(polar, alpha, 1.0) == pytest.approx(measured_lift, rel=0.04)
    assert section_drag(polar, alpha, 160_000) == pytest.approx(measured_drag, rel=0.12)
    assert section_drag(polar, alpha, 160_000) - section_drag(polar, 0, 160_000) == pytest.approx(measured_drag - 0.0115, abs=0.0006)


def section_lift(polar, alpha, compressed):
    straight = polar.lift_slope_per_rad * compressed * alpha
    return straight / (1 + (straight / polar.lift_limit) ** 6) ** (1 / 6)


def section_drag(polar, alpha, reynolds):
    factor = (polar.reference_reynolds / reynolds) ** polar.reynolds_exponent
    return polar.drag_zero * factor + polar.drag_alpha2_per_rad2 * alpha**2


def thrust(row):
    return float(row["ct_report"]) / 2


def power(row):
    return float(row["cq_report"]) / 2


INDUCED_FACTOR = 1.15
"""Of a rotor in hover, by the textbooks (Leishman, from memory)."""


def elements(rotor, air, rpm, pitch_rad, climb, number=160):
    """Thrust and power of a rotor by blade elements and momentum in rings, told again: the induced speed of each ring by scipy's root finder."""
    polar, omega = rotor.polar, rpm * 2 * np.pi / 60
    tip = omega * rotor.radius_m
    reynolds = air.density_kg_m3 * tip * rotor.chord_m / air.viscosity_pa_s
    edges = np.linspace(rotor.root_fraction, 1, number + 1) * rotor.radius_m
    radius, width = (edges[1:] + edges[:-1]) / 2, np.diff(edges)
    thrust = power = 0.0
    for y, dy in zip(radius, width):
        def ring(v):
            through = climb + v
            phi = np.arctan2(through, omega * y)
            alpha = pitch_rad - phi
            lift = section_lift(polar, alpha, (1 - (omega * y / air.sound_m_s) ** 2) ** -0.5)
            drag = section_drag(polar, alpha, reynolds * y / rotor.radius_m)
            pressure = 0.5 * air.density_kg_m3 * (through**2 + (omega * y) ** 2) * rotor.chord_m * rotor.blades * dy
            return phi, lift, drag, pressure

        def balance(v):
            phi, lift, _, pressure = ring(v)
            loss = 2 / np.pi * np.arccos(np.exp(-rotor.blades * (rotor.radius_m - y) / (2 * y * np.sin(phi))))
            ideal = v / INDUCED_FACTOR
            return pressure * lift * np.cos(phi) - 4 * np.pi * air.density_kg_m3 * loss * (climb + ideal) * ideal * y * dy

        v = brentq(balance, 1e-6, omega * y * np.tan(pitch_rad) - climb, xtol=1e-10)
        phi, lift, drag, pressure = ring(v)
        thrust += pressure * (lift * np.cos(phi) - drag * np.sin(phi))
        power += pressure * (lift * np.sin(phi) + drag * np.cos(phi)) * y * omega
    return thrust, power


@pytest.mark.parametrize("rpm", [900, 1_240, 1_500])
def test_thin_air_and_climb_by_other_blade_elements(rpm):
    """What a hot day and a climb of 3 m/s add to the power at the same mass: sign and size, and beside it what a fixed drag would say."""
    rotor = lg.Rotor(blades=3, radius_m=0.9, chord_m=0.062, root_fraction=0.17, twist_deg=0, polar=lg.small_symmetric_section())
    hot, standard = lg.air_from_qnh(101_325.0, 340.0, 34.0, 0.5), lg.standard_air(0)

    def question(air, climb=0.0):
        return lg.HoverQuestion(rotor=rotor, air=air, speed_rpm=rpm, mass_kg=9.4, download_fraction=0.04, climb_m_s=climb)

    def other(air, climb=0.0):
        wanted = lg.hover_power(question(air)).loads.thrust_n
        pitch = brentq(lambda p: elements(rotor, air, rpm, p, climb)[0] - wanted, np.radians(2), np.radians(16), xtol=1e-7)
        return elements(rotor, air, rpm, pitch, climb)[1]

    thin = lg.hover_power(question(hot)).loads.power_w / lg.hover_power(question(standard)).loads.power_w - 1
    assert thin == pytest.approx(other(hot) / other(standard) - 1, abs=0.003)
    climb = lg.hover_power(question(hot, 3.0)).loads.power_w - lg.hover_power(question(hot)).loads.power_w
    assert climb == pytest.approx(other(hot, 3.0) - other(hot), rel=0.02)
    ideal = lg.climb_power(9.4 * 1.04 * 9.80665, 0.9, hot.density_kg_m3, 3.0) - lg.climb_power(9.4 * 1.04 * 9.80665, 0.9, hot.density_kg_m3, 0.0)
    assert climb > ideal
    print(f"{rpm} rpm: thin air {100 * thin:+.1f} %, a climb of 3 m/s {climb:.0f} W, ideal {ideal:.0f} W")
