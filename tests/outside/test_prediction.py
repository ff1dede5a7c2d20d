"""The ladder's fit against the same statistics the long way round.

The core updates four factors of the physical prior in closed form and sums over fifteen scatters. Here the readings' joint normal
distribution is conditioned on directly (scipy's multivariate normal; Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006,
equations 2.25 and 2.26, and 5.8 for the evidence), over 201 scatters, and quantiles are found by root finding.
"""

import liftgate as lg
import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.stats import multivariate_normal, norm

PRIOR = lg.large_electric_prior()
SPREAD = np.array([PRIOR.efficiency_spread, PRIOR.induced_spread, PRIOR.drag_spread, PRIOR.drag_alpha2_spread])
G0 = 9.80665


def row(aircraft, head_rpm, density):
    """Hover power that the prior's middle expects, and its shares: momentum and profile power (closed forms of every textbook)."""
    area = np.pi * aircraft.radius_m**2
    thrust = aircraft.mass_kg * G0
    tip = aircraft.radius_m * head_rpm * 2 * np.pi / 60
    induced = PRIOR.induced_factor * thrust**1.5 / np.sqrt(2 * density * area)
    flow = density * area * tip**3 * aircraft.solidity / 8
    alpha = min(6 * thrust / (density * area * tip**2) / aircraft.solidity / 5.73, 0.35)
    zero, lift = PRIOR.drag_zero * flow, PRIOR.drag_alpha2_per_rad2 * alpha**2 * flow
    shaft = induced + zero + lift
    return shaft / PRIOR.efficiency, np.array([-1, induced / shaft, zero / shaft, lift / shaft])


def conditioned(x, y, at, scatter):
    """Mean and variance of `at . d`, and the logarithm of the evidence, for one scatter."""
    cov = x @ np.diag(SPREAD**2) @ x.T + scatter**2 * np.eye(len(y))
    cross = at @ np.diag(SPREAD**2) @ x.T
    solved = np.linalg.solve(cov, np.column_stack([y, cross]))
    mean = cross @ solved[:, 0]
    variance = at @ np.diag(SPREAD**2) @ at - cross @ solved[:, 1]
    return mean, variance, multivariate_normal(np.zeros(len(y)), cov).logpdf(y)


def reference(aircraft, steps, next_step):
    """2.5, 50 and 97.5 % of the next step's power, W."""
    rows = [row(aircraft, s.head_rpm, s.density_kg_m3) for s in steps]
    x0, y0 = np.array([r[1] for r in rows]), np.array([s.power_w / r[0] - 1 for s, r in zip(steps, rows)])
    next_w, at = row(aircraft, next_step.head_rpm, next_step.density_kg_m3)
    # A reading scatters by a share of the true value: two looks find that value, as the core does.
    factors, unit = np.zeros(4), np.eye(4)
    for _ in range(2):
        weight = 1 / np.maximum(1 + x0 @ factors, 0.05)
        x, y = x0 * weight[:, None], y0 * weight
        factors = np.array([conditioned(x, y, unit[i], PRIOR.scatter)[0] for i in range(4)])
    weight = 1 / np.maximum(1 + x0 @ factors, 0.05)
    x, y = x0 * weight[:, None], y0 * weight
    deviations = np.linspace(-3, 3, 201)
    scatters = PRIOR.scatter * np.exp(0.5 * deviations)
    parts = [conditioned(x, y, at, s) for s in scatters]
    logs = np.array([p[2] for p in parts]) - deviations**2 / 2
    weights = np.exp(logs - logs.max())
    weights /= weights.sum()
    means, variances = np.array([p[0] for p in parts]), np.array([p[1] for p in parts])
    level = max(1 + weights @ means, 0.05)
    sds = np.sqrt(variances + (level * scatters) ** 2)
    quantile = lambda q: brentq(lambda v: weights @ norm.cdf(v, means, sds) - q, -5, 5)
    return [next_w * (1 + quantile(q)) for q in (0.025, 0.5, 0.975)]


def random_ladder(random):
    aircraft = lg.LadderAircraft(
        mass_kg=random.uniform(5, 15),
        radius_m=random.uniform(0.75, 1.25),
        solidity=random.uniform(0.04, 0.09),
        loaded_v=random.uniform(40, 55),
    )
    truth, noise = random.normal(0, SPREAD), random.uniform(0.01, 0.05)
    # Head speeds of a lightly loaded tip, so that no rotor is stalled: mean lift coefficient about 0.5.
    tip = np.sqrt(6 * aircraft.mass_kg * G0 / (1.2 * np.pi * aircraft.radius_m**2 * aircraft.solidity * 0.5))
    base = tip / aircraft.radius_m * 60 / (2 * np.pi)

    def step(index):
        rpm, density = base * (1 + 0.06 * index), random.uniform(1.05, 1.28)
        prior_w, shares = row(aircraft, rpm, density)
        power = prior_w * (1 + shares @ truth) * (1 + random.normal(0, noise))
        return lg.FlownStep(
            head_rpm=rpm, density_kg_m3=density, air_c=15, power_w=power, current_a=None, temperature_c=None
        )

    steps = [step(i) for i in range(int(random.integers(1, 7)))]
    next_step = lg.NextStep(head_rpm=base * (1 + 0.06 * len(steps)), density_kg_m3=1.2, air_c=15)
    return aircraft, steps, next_step


def test_the_next_step_against_conditioning_a_joint_normal(random):
    for _ in range(100):
        aircraft, steps, next_step = random_ladder(random)
        got = lg.predict_next_step(lg.LadderQuestion(aircraft=aircraft, prior=PRIOR, steps=steps, next=next_step)).power_w
        low, middle, high = reference(aircraft, steps, next_step)
        assert got.middle == pytest.approx(middle, rel=1e-3)
        # Fifteen scatters for 201: the ends move by less than a hundredth of the interval's width.
        assert got.low == pytest.approx(low, abs=0.01 * (high - low))
        assert got.high == pytest.approx(high, abs=0.01 * (high - low))


def test_before_the_first_step_it_is_momentum_and_profile_power(random):
    for _ in range(1_000):
        aircraft, _, next_step = random_ladder(random)
        got = lg.predict_next_step(lg.LadderQuestion(aircraft=aircraft, prior=PRIOR, steps=[], next=next_step))
        assert got.power_w.middle == pytest.approx(row(aircraft, next_step.head_rpm, next_step.density_kg_m3)[0], rel=1e-6)
        assert got.beyond_percent is None
