"""The ladder's fit against the same statistics the long way round.

The core fits four factors of the physical prior with errors of Student's t in rounds of weights, and takes the posterior as normal at its
mode (Laplace), over nine scatters, two tails and two widths of the prior. Here the posterior is sampled for each (importance sampling about
the mode that scipy's optimiser finds; C. P. Robert and G. Casella, Monte Carlo Statistical Methods, 2004, 3.3), over 15 scatters, and
quantiles are found by root finding.
"""

import liftgate as lg
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq, minimize
from scipy.stats import multivariate_t, norm, t

PRIOR = lg.large_electric_prior()
SPREAD = np.array([PRIOR.efficiency_spread, PRIOR.induced_spread, PRIOR.drag_spread, PRIOR.drag_alpha2_spread])
G0 = 9.80665
STILL = lg.RotorWind(speed_m_s=0, half_width_m_s=0)


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


def log_posterior(d, x, y, spread, freedom, scale):
    """Normal prior and errors of Student's t, without what is the same for all d."""
    return norm.logpdf(d, 0, spread).sum(-1) + t.logpdf(y - d @ x.T, freedom, 0, scale).sum(-1)


def mode(x, y, spread, freedom, scale):
    start = np.linalg.solve(x.T @ x / scale**2 + np.diag(spread**-2.0), x.T @ y / scale**2)
    return minimize(lambda d: -log_posterior(d, x, y, spread, freedom, scale), start, method="BFGS")


def normal_scale(freedom):
    """Scale of the t that fits normal errors of scatter one best (its likelihood equation, by quadrature)."""
    mean = lambda s: quad(lambda z: (freedom + 1) * z * z / (freedom * s * s + z * z) * norm.pdf(z), -12, 12)[0]
    return brentq(lambda s: mean(s) - 1, 0.2, 1.5)


TAILS = {freedom: normal_scale(freedom) for freedom in (8, 1)}


def sampled(random, x, y, at, spread, freedom, scale):
    """Evidence's logarithm, and samples of `at . d` with their weights."""
    found = mode(x, y, spread, freedom, scale)
    draws = multivariate_t(found.x, 1.3 * (found.hess_inv + found.hess_inv.T) / 2, 6, seed=random).rvs(400)
    logs = log_posterior(draws, x, y, spread, freedom, scale)
    logs -= multivariate_t(found.x, 1.3 * (found.hess_inv + found.hess_inv.T) / 2, 6).logpdf(draws)
    top = logs.max()
    weights = np.exp(logs - top)
    return top + np.log(weights.mean()), draws @ at, weights / weights.sum()


def reference(random, aircraft, steps, next_step):
    """2.5, 50 and 97.5 % of the next step's power, W."""
    rows = [row(aircraft, s.head_rpm, s.density_kg_m3) for s in steps]
    x0, y0 = np.array([r[1] for r in rows]), np.array([s.power_w / r[0] - 1 for s, r in zip(steps, rows)])
    next_w, at = row(aircraft, next_step.head_rpm, next_step.density_kg_m3)
    # A reading scatters by a share of the true value: two looks find that value, as the core does.
    factors = np.zeros(4)
    for _ in range(2):
        weight = 1 / np.maximum(1 + x0 @ factors, 0.05)
        factors = mode(x0 * weight[:, None], y0 * weight, SPREAD, 8, TAILS[8] * PRIOR.scatter).x
    weight = 1 / np.maximum(1 + x0 @ factors, 0.05)
    x, y = x0 * weight[:, None], y0 * weight
    parts = []
    for deviation in np.linspace(-3, 3, 15):
        scatter = PRIOR.scatter * np.exp(0.5 * deviation)
        for freedom, scale in TAILS.items():
            for times, chance in ((1, 1 - PRIOR.wider_chance), (PRIOR.wider, PRIOR.wider_chance)):
                log, values, weights = sampled(random, x, y, at, times * SPREAD, freedom, scale * scatter)
                parts.append((log + np.log(chance) - deviation**2 / 2, scatter, values, weights))
    top = max(part[0] for part in parts)
    weights = np.concatenate([np.exp(log - top) * w for log, _, _, w in parts])
    weights /= weights.sum()
    values = np.concatenate([values for _, _, values, _ in parts])
    level = max(1 + weights @ values, 0.05)
    sds = np.concatenate([np.full(len(values), level * scatter) for _, scatter, values, _ in parts])
    quantile = lambda q: brentq(lambda v: weights @ norm.cdf(v, values, sds) - q, -5, 5)
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
            head_rpm=rpm, density_kg_m3=density, air_c=15, power_w=power, current_a=None, temperature_c=None, run_s=None,
            wind=STILL,
        )

    steps = [step(i) for i in range(int(random.integers(1, 7)))]
    next_step = lg.NextStep(head_rpm=base * (1 + 0.06 * len(steps)), density_kg_m3=1.2, air_c=15, run_s=None, wind=STILL)
    return aircraft, steps, next_step


def test_the_next_step_against_a_sampled_posterior(random):
    for round in range(8):
        aircraft, steps, next_step = random_ladder(random)
        if round % 2 and len(steps) > 3:
            # A charge mistyped by 1.3.
            steps[1].power_w *= 1.3
        got = lg.predict_next_step(lg.LadderQuestion(aircraft=aircraft, prior=PRIOR, tau=None, steps=steps, next=next_step)).power_w
        low, middle, high = reference(random, aircraft, steps, next_step)
        # Laplace's normal for a skew posterior, nine scatters for fifteen, and 24,000 samples: a small part of the interval's width.
        print(len(steps), got, low, middle, high)
        assert got.middle == pytest.approx(middle, abs=0.06 * (high - low))
        assert got.low == pytest.approx(low, abs=0.08 * (high - low))
        assert got.high == pytest.approx(high, abs=0.08 * (high - low))


def test_before_the_first_step_it_is_momentum_and_profile_power(random):
    for _ in range(1_000):
        aircraft, _, next_step = random_ladder(random)
        got = lg.predict_next_step(lg.LadderQuestion(aircraft=aircraft, prior=PRIOR, tau=None, steps=[], next=next_step))
        assert got.power_w.middle == pytest.approx(row(aircraft, next_step.head_rpm, next_step.density_kg_m3)[0], rel=1e-6)
        assert got.beyond_percent is None


def test_glauerts_inflow_and_the_beaufort_numbers(random):
    """The closed form against scipy's root of v = v_h^2 / sqrt(V^2 + v^2); the numbers against the WMO's table in m/s, carried down to 2 m."""
    for _ in range(500):
        still, wind = random.uniform(1.5, 6), random.uniform(0, 25)
        induced = brentq(lambda v: v * np.hypot(wind, v) - still**2, 0, still * 1.001)
        assert lg.induced_velocity_ratio(wind / still) * still == pytest.approx(induced, rel=1e-9)
    down = np.log(2 / 0.03) / np.log(10 / 0.03)
    table = [(0, 0.2), (0.3, 1.5), (1.6, 3.3), (3.4, 5.4), (5.5, 7.9), (8.0, 10.7), (10.8, 13.8), (13.9, 17.1), (17.2, 20.7)]
    for force, (low, high) in enumerate(table):
        assert lg.wind_by_force(force).speed_m_s == pytest.approx((low + high) / 2 * down, rel=1e-9)
