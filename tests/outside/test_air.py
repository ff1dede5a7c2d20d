"""Air, against the US Standard Atmosphere 1976 as fluids, ambiance and CoolProp compute it."""

import ambiance
import CoolProp.CoolProp as cp
import fluids
import liftgate as lg
import numpy as np
import pytest

# US Standard Atmosphere 1976, geopotential altitude (closed form): H m, T K, p Pa, rho kg/m3.
STANDARD = [
    (0, 288.150, 101325.00, 1.224999),
    (500, 284.900, 95460.84, 1.167268),
    (1000, 281.650, 89874.57, 1.111642),
    (2000, 275.150, 79495.22, 1.006490),
    (3000, 268.650, 70108.54, 0.909121),
]


@pytest.mark.parametrize("altitude, kelvin, pascal, density", STANDARD)
def test_standard_atmosphere_table(altitude, kelvin, pascal, density):
    air = lg.standard_air(altitude)
    assert air.temperature_c + 273.15 == pytest.approx(kelvin, abs=1e-9)
    assert air.pressure_pa == pytest.approx(pascal, rel=1e-6)
    assert air.density_kg_m3 == pytest.approx(density, rel=1e-6)


def test_standard_atmosphere_against_two_libraries():
    """Both libraries take geometric altitude; mixing the two kinds would show as 19 ppm at 1 km."""
    for height in np.linspace(0, 4_900, 50):
        air = lg.standard_air(lg.geopotential_from_geometric(height))
        by_fluids = fluids.ATMOSPHERE_1976(height)
        assert air.pressure_pa == pytest.approx(by_fluids.P, rel=2e-6)
        assert air.density_kg_m3 == pytest.approx(by_fluids.rho, rel=2e-6)
        by_ambiance = ambiance.Atmosphere(height)
        assert air.pressure_pa == pytest.approx(float(by_ambiance.pressure[0]), rel=2e-6)
        assert air.sound_m_s == pytest.approx(float(by_ambiance.speed_of_sound[0]), rel=1e-4)
        assert air.viscosity_pa_s == pytest.approx(float(by_ambiance.dynamic_viscosity[0]), rel=2e-3)


def test_geometric_kilometre():
    """Geometric 1000 m: 89876.285 Pa, 1.111659 kg/m3 (fluids and ambiance 1.3.1)."""
    air = lg.standard_air(lg.geopotential_from_geometric(1_000))
    assert air.pressure_pa == pytest.approx(89876.285, rel=1e-6)
    assert air.density_kg_m3 == pytest.approx(1.111659, rel=1e-6)


# p Pa, t C, RH, density altitude dry and moist m, moist density MetPy 1.7.1 and CoolProp 8.0.0.
MOIST = [
    (101325, 30, 0.0, 525.5, 525.5, 1.16441, 1.16476),
    (101325, 30, 0.5, 525.5, 607.0, 1.15521, 1.15556),
    (101325, 35, 0.8, 693.5, 866.3, 1.12634, 1.12665),
    (89874.57, 20, 0.0, 1405.5, 1405.5, 1.06805, 1.06843),
    (79495.2, 35, 0.6, 3111.8, 3267.7, 0.88434, 0.88451),
]


@pytest.mark.parametrize("pressure, celsius, humidity, dry, moist, metpy, coolprop", MOIST)
def test_density_altitude(pressure, celsius, humidity, dry, moist, metpy, coolprop):
    assert lg.air_of(pressure, celsius, 0.0).density_altitude_m == pytest.approx(dry, abs=0.1)
    air = lg.air_of(pressure, celsius, humidity)
    assert air.density_altitude_m == pytest.approx(moist, abs=5)
    assert air.density_kg_m3 == pytest.approx(metpy, rel=5e-4)  # MetPy 1.7.1, frozen
    assert air.density_kg_m3 == pytest.approx(coolprop, rel=1e-3)  # CoolProp 8.0.0, frozen


def test_moist_air_against_coolprop():
    """CoolProp's humid air, above freezing: below, it saturates over ice."""
    for pressure in (101_325.0, 90_000.0, 80_000.0):
        for celsius in (2.0, 15.0, 25.0, 38.0):
            for humidity in (0.0, 0.3, 0.7, 1.0):
                got = lg.air_of(pressure, celsius, humidity).density_kg_m3
                volume = cp.HAPropsSI("Vha", "T", celsius + 273.15, "P", pressure, "R", humidity)
                assert got == pytest.approx(1 / volume, rel=1e-3), (pressure, celsius, humidity)


def test_field_pressure_from_qnh():
    """QNH by its definition: the field's pressure altitude shifted by the sea-level pressure's."""
    air = lg.air_from_qnh(101_325, 500, lg.standard_air(500).temperature_c, 0.0)
    assert air.pressure_pa == pytest.approx(lg.standard_air(500).pressure_pa, rel=1e-6)
