"""Orders against natural frequencies: clear bands of head speed against the interval arithmetic of `portion`, and a plain scan."""

import liftgate as lg
import numpy as np
import portion
import pytest


def random_question(random):
    exciters = [
        lg.Exciter(name=f"order {i}", order=float(order))
        for i, order in enumerate(random.uniform(0.5, 40, int(random.integers(1, 9))))
    ]
    naturals = [
        lg.NaturalFrequency(name=f"mode {i}", frequency_hz=float(hz), half_width_hz=float(hz * random.uniform(0, 0.05)))
        for i, hz in enumerate(random.uniform(3, 300, int(random.integers(1, 7))))
    ]
    low = float(random.uniform(300, 1_200))
    return lg.PlacementQuestion(
        exciters=exciters,
        naturals=naturals,
        low_rpm=low,
        high_rpm=low + float(random.uniform(100, 900)),
        margin_percent=float(random.uniform(0, 20)),
    )


def distance_percent(question, rpm):
    """The tightest pair by its definition: distance less the accuracy, over the natural frequency."""
    orders = np.array([e.order for e in question.exciters])[:, None] * rpm / 60
    hz = np.array([n.frequency_hz for n in question.naturals])[None, :]
    accuracy = np.array([n.half_width_hz for n in question.naturals])[None, :]
    return float(np.min((np.abs(orders - hz) - accuracy) / hz * 100))


def test_clear_bands_against_interval_arithmetic(random):
    for _ in range(1_000):
        question = random_question(random)
        clear = portion.closed(question.low_rpm, question.high_rpm)
        for exciter in question.exciters:
            for natural in question.naturals:
                reach = natural.frequency_hz * question.margin_percent / 100 + natural.half_width_hz
                per_hz = 60 / exciter.order
                clear -= portion.open(
                    (natural.frequency_hz - reach) * per_hz, (natural.frequency_hz + reach) * per_hz
                )
        expected = [(band.lower, band.upper) for band in clear if not band.empty and band.upper - band.lower > 1e-9]
        got = [(b.low_rpm, b.high_rpm) for b in lg.frequency_placement(question).clear if b.high_rpm - b.low_rpm > 1e-9]
        assert len(got) == len(expected)
        assert np.allclose(got, expected, rtol=1e-12)


def test_nearest_order_against_a_scan_of_all_pairs(random):
    for _ in range(1_000):
        question = random_question(random)
        rpm = float(random.uniform(question.low_rpm, question.high_rpm))
        got = lg.nearest_order(question, rpm)
        assert got.margin_percent == pytest.approx(distance_percent(question, rpm), abs=1e-9)
        assert got.exciter_hz == pytest.approx(question.exciters[got.exciter].order * rpm / 60)


def test_a_clear_band_keeps_the_margin_and_its_edge_loses_it(random):
    for _ in range(300):
        question = random_question(random)
        report = lg.frequency_placement(question)
        for band in report.clear:
            inside = random.uniform(band.low_rpm, band.high_rpm, 20)
            assert all(distance_percent(question, rpm) >= question.margin_percent - 1e-6 for rpm in inside)
            if band.high_rpm < question.high_rpm:
                assert distance_percent(question, band.high_rpm + 1e-4) < question.margin_percent
