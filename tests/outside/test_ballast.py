"""The least ballast, against the exact optimum of scipy's linear and integer programs (HiGHS)."""

import liftgate as lg
import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, linprog, milp


def question(mass, centre, band, places, limits):
    return lg.BallastQuestion(
        centre=lg.Centre(mass_g=mass, x_mm=centre[0], y_mm=centre[1], z_mm=None),
        band=lg.Band(x_low_mm=band[0], x_high_mm=band[1], y_low_mm=band[2], y_high_mm=band[3]),
        places=[
            lg.BallastPlace(name=f"place {i}", x_mm=p[0], y_mm=p[1], z_mm=0.0, limit_g=limit)
            for i, (p, limit) in enumerate(zip(places, limits))
        ],
    )


def inequalities(mass, centre, band, places):
    """Rows A w <= b for: the centre with ballast w lies in the band, each edge multiplied out by the total mass."""
    x_low, x_high, y_low, y_high = band
    x, y = places[:, 0], places[:, 1]
    a = np.array([x_low - x, x - x_high, y_low - y, y - y_high])
    b = mass * np.array([centre[0] - x_low, x_high - centre[0], centre[1] - y_low, y_high - centre[1]])
    return a, b


def random_question(random):
    mass = random.uniform(4_000, 16_000)
    count = int(random.integers(1, 9))
    places = np.column_stack([random.uniform(-1_200, 900, count), random.uniform(-250, 250, count)])
    limits = np.round(random.uniform(20, 1_500, count))
    reach = random.choice([1.0, 0.2])  # one in two near its band
    centre = reach * random.uniform([-60, -15], [60, 15])
    low_x, low_y = random.uniform(-15, 0), random.uniform(-6, -1)
    band = (low_x, low_x + random.uniform(1, 25), low_y, low_y + random.uniform(1, 10))
    return mass, centre, band, places, limits


def test_exact_least_total_equals_the_linear_program(random):
    kinds = {"needed": 0, "not": 0, "impossible": 0}
    for _ in range(1_500):
        mass, centre, band, places, limits = random_question(random)
        answer = lg.least_ballast(question(mass, centre, band, places, limits)).answer
        a, b = inequalities(mass, centre, band, places)
        best = linprog(np.ones(len(limits)), A_ub=a, b_ub=b, bounds=list(zip(np.zeros(len(limits)), limits)))
        if isinstance(answer, lg.BallastAnswer.NOT_NEEDED):
            kinds["not"] += 1
            assert best.status == 0 and best.fun == pytest.approx(0, abs=1e-6)
        elif isinstance(answer, lg.BallastAnswer.IMPOSSIBLE):
            kinds["impossible"] += 1
            assert best.status == 2, (best.status, answer)
        else:
            kinds["needed"] += 1
            assert best.status == 0
            assert answer.best.exact_total_g == pytest.approx(best.fun, rel=1e-7, abs=1e-4)
            grams = np.array(answer.best.exact_g)
            assert (grams >= -1e-9).all() and (grams <= limits + 1e-9).all()
            assert (a @ grams <= b + 1e-6 * np.abs(b).max() + 1e-3).all()
    assert min(kinds.values()) > 50, kinds


def test_whole_grams_equal_the_integer_program(random):
    proven = 0
    for _ in range(400):
        mass, centre, band, places, limits = random_question(random)
        answer = lg.least_ballast(question(mass, centre, band, places, limits)).answer
        if not isinstance(answer, lg.BallastAnswer.FOUND) or answer.best.whole is None:
            continue
        whole = answer.best.whole
        a, b = inequalities(mass, centre, band, places)
        grams = np.array(whole.grams, dtype=float)
        assert whole.total_g == grams.sum() and (grams <= limits).all()
        # In the band, up to the tenth of a micrometre that the core allows for rounding.
        assert (a @ grams <= b + 1e-7 * (mass + grams.sum()) + 1e-6).all()
        best = milp(
            np.ones(len(limits)),
            constraints=LinearConstraint(a, ub=b),
            bounds=Bounds(0, np.floor(limits)),
            integrality=np.ones(len(limits)),
            options={"mip_rel_gap": 0},
        )
        if whole.proven_least:
            proven += 1
            assert best.status == 0 and whole.total_g == round(best.fun), (whole, best)
        elif best.status == 0:
            assert whole.total_g >= round(best.fun)
    assert proven > 100, proven


def test_the_next_best_places_leave_one_out(random):
    """The second answer is the least total over all sets of places that leave at least one of the first answer's empty."""
    compared = 0
    for _ in range(600):
        mass, centre, band, places, limits = random_question(random)
        answer = lg.least_ballast(question(mass, centre, band, places, limits)).answer
        if not isinstance(answer, lg.BallastAnswer.FOUND):
            continue
        a, b = inequalities(mass, centre, band, places)
        totals = []
        for left_out in np.flatnonzero(np.array(answer.best.exact_g) > 1e-9):
            bounds = [(0, 0 if i == left_out else limit) for i, limit in enumerate(limits)]
            best = linprog(np.ones(len(limits)), A_ub=a, b_ub=b, bounds=bounds)
            if best.status == 0:
                totals.append(best.fun)
        if answer.second is None:
            assert not totals, (answer, totals)
        else:
            compared += 1
            assert answer.second.exact_total_g == pytest.approx(min(totals), rel=1e-7, abs=1e-4)
    assert compared > 50, compared


def test_handbook_ballast_is_the_answer_for_one_place():
    """FAA mechanic's test bank: 4954 lb at 30.5, limit 32.0, arm 162: 57.16 lb, whole units round up."""
    answer = lg.least_ballast(
        question(4954, (30.5, 0), (32.0, 60.0, -10, 10), np.array([[162.0, 0.0]]), np.array([500.0]))
    ).answer
    assert round(answer.best.exact_total_g, 2) == 57.16
    assert answer.best.whole.total_g == 58
