"""Logs: statistics and segments against polars, pandas and scipy, fits against scipy and statsmodels, the test for drift against
statsmodels, scipy and published run lengths. All logs are invented."""

import liftgate as lg
import numpy as np
import pandas as pd
import polars as pl
import pytest
import statsmodels.api as sm
from scipy import integrate, stats
from scipy.optimize import curve_fit
from scipy.signal import lfilter
from statsmodels.stats.diagnostic import recursive_olsresiduals

OHM, FALL, TAU = 0.025, 0.9, 90.0


@pytest.fixture
def log(tmp_path, random):
    """A flight with hover, manoeuvres and hover, written with gaps of one row and uneven steps."""
    n = 6_600
    t = np.round(np.cumsum(random.uniform(0.03, 0.07, n)), 3)
    a = np.select(
        [t < 10, t < 30, t < 150, t < 190, t < 300, t < 315],
        [0.3, 12, 60 + random.normal(0, 0.8, n), 70 + 40 * np.sin(1.7 * t) + random.normal(0, 2, n), 60 + random.normal(0, 0.8, n), 11],
        0.3,
    )
    taken = np.concatenate([[0], np.cumsum(np.diff(t) * (a[1:] + a[:-1]) / 2)]) / 3600
    v = 50.4 - OHM * a - FALL * taken + random.normal(0, 0.02, n)
    rpm = np.where(t < 10, 0, np.minimum(1300, 1300 * (t - 10) / 12)) - 0.4 * np.maximum(a - 60, 0)
    rpm = np.where(t > 316, 0, rpm)
    heat = np.where(t < 30, 25, 25 + 50 * (1 - np.exp(-(t - 30) / TAU))) + random.normal(0, 0.2, n)
    frame = pd.DataFrame({"Time [s]": t, "Voltage [V]": v.round(3), "Current [A]": a.round(2), "Rotor [rpm]": rpm.round(0), "Controller [°C]": heat.round(1)})
    frame.loc[random.choice(n, 40, replace=False), "Current [A]"] = np.nan
    path = tmp_path / "log.csv"
    frame.to_csv(path, index=False, sep=";", decimal=",")
    return path, frame


def read(path, kept=1 << 27, change=None):
    columns = lg.suggested_columns(lg.log_layout(str(path)))
    if change:
        change(columns)
    return lg.FlightLog.read(str(path), columns, kept)


def summary(of, **limits):
    return of.summary(lg.Limits(cells=12, set_head_speed_rpm=1300.0, channels=limits.get("channels", [])))


def test_statistics_against_polars_and_pandas(log):
    path, frame = log
    got = read(path)
    table = pl.read_csv(path, separator=";", decimal_comma=True)
    assert got.rows().imported == len(table)
    for index, name in enumerate(table.columns[1:]):
        own, column = got.statistics()[index], table[name]
        assert (own.count, own.missing) == (len(column) - column.null_count(), column.null_count())
        assert [own.mean, own.sd, own.least, own.greatest] == pytest.approx([column.mean(), column.std(), column.min(), column.max()], rel=1e-12)
        assert own.sd == pytest.approx(frame[name].std(), rel=1e-10)
        seen = frame["Time [s]"] - frame["Time [s]"][0]
        assert [own.least_at_s, own.greatest_at_s] == pytest.approx([seen[frame[name].idxmin()], seen[frame[name].idxmax()]], abs=1e-9)


@pytest.mark.parametrize(
    "options",
    [dict(sep=","), dict(sep=";", decimal=","), dict(sep="\t"), dict(sep="|"), dict(sep=",", decimal=",", quoting=2),
     dict(sep=";", encoding="utf-16"), dict(sep=",", encoding="utf-8-sig", lineterminator="\r\n"), dict(sep=";", decimal=",", encoding="latin-1"),
     dict(sep=",", encoding="utf-16-be"), dict(sep=",", quoting=1)],
)
def test_whatever_pandas_writes_is_read(tmp_path, log, options):
    _, frame = log
    path = tmp_path / "other.csv"
    frame.to_csv(path, index=False, **options)
    got = read(path)
    assert got.rows().imported == len(frame) and not got.faults()
    for index, name in enumerate(frame.columns[1:]):
        assert np.array_equal(np.array(got.values(index), dtype=np.float32), frame[name].to_numpy(np.float32), equal_nan=True)
    assert got.times() == pytest.approx((frame["Time [s]"] - frame["Time [s]"][0]).tolist(), abs=1e-9)


@pytest.mark.parametrize("encoding, signs", [
    ("cp1252", bytes(set(range(0xA0, 0x100)) | set(range(0x80, 0xA0)) - {0x81, 0x8D, 0x8F, 0x90, 0x9D}).decode("cp1252")),
    ("utf-16-le", "\u00b0\u20ac\u7532\ud7ff\ue000\ufffd\U00010000\U0001d11e\U0010fffd"),
    ("utf-16-be", "\u00b0\u20ac\u7532\ud7ff\ue000\ufffd\U00010000\U0001d11e\U0010fffd"),
])
def test_signs_of_old_encodings_against_pythons_codecs(tmp_path, encoding, signs):
    """Each sign stands in a column's name by itself, between letters, so that no blank is trimmed off it."""
    path = tmp_path / "signs.csv"
    names = [f"a{sign}b" for sign in signs]
    rows = "".join(f"{row * 0.1:.1f}," + ",".join("1" for _ in names) + "\n" for row in range(40))
    mark = "" if encoding == "cp1252" else "\ufeff"
    path.write_bytes((mark + "Time [s]," + ",".join(names) + "\n" + rows).encode(encoding))
    assert [header.name for header in lg.log_layout(str(path)).headers[1:]] == names


@pytest.mark.parametrize("form, write", [
    ("DATE_YEAR_FIRST", lambda stamps: stamps.dt.strftime("%Y-%m-%dT%H:%M:%S.%f")),
    ("DATE_DAY_FIRST", lambda stamps: stamps.dt.strftime("%d.%m.%Y %H:%M:%S.%f")),
    ("DATE_MONTH_FIRST", lambda stamps: stamps.dt.strftime("%m/%d/%Y %I:%M:%S.%f %p")),
    ("CLOCK", lambda stamps: stamps.dt.strftime("%H:%M:%S.%f")),
    ("MILLISECONDS", lambda stamps: ((stamps - stamps.iloc[0]).dt.total_seconds() * 1000).round()),
])
def test_times_against_pandas(tmp_path, form, write):
    """Over the end of a month, and over midnight."""
    stamps = pd.Series(pd.date_range("2026-02-28 23:58:30.125", periods=400, freq="500ms"))
    path = tmp_path / "times.csv"
    pd.DataFrame({"Moment": write(stamps), "Current [A]": np.arange(400.0)}).to_csv(path, index=False)

    def change(columns):
        columns.time_column, columns.time_form = 0, getattr(lg.TimeForm, form)()

    got = read(path, change=change)
    assert got.rows().imported == 400 and got.rows().restarts == 0
    assert got.times() == pytest.approx((stamps - stamps[0]).dt.total_seconds().tolist(), abs=1e-6)


def crossings(t, value, limit):
    """Seconds above a limit by straight lines, by scipy's integral of an indicator on a fine grid."""
    fine = np.linspace(t[0], t[-1], 2_000_001)
    return np.mean(np.interp(fine, t, value) > limit) * (t[-1] - t[0])


def test_figures_against_scipy(log):
    path, frame = log
    limit = lg.ChannelLimit(quantity=lg.Quantity.TEMPERATURE, place=None, value=60.0, side=lg.Side.ABOVE, grade=lg.Grade.CAUTION, basis="test")
    got = summary(read(path), channels=[limit])
    flight = got.flying.flights[0].span
    t = (frame["Time [s]"] - frame["Time [s]"][0]).to_numpy()
    inside = (t >= flight.start_s) & (t <= flight.end_s)
    figure = {f.kind: f for f in got.figures if f.channel is None or f.kind in (lg.FigureKind.PAST_LIMIT,)}

    a = frame["Current [A]"].to_numpy()
    ok = ~np.isnan(a)
    # The whole log counts; a row without a current is bridged.
    assert figure[lg.FigureKind.CHARGE].value == pytest.approx(integrate.trapezoid(a[ok], t[ok]) / 3.6, rel=1e-6)
    power = np.interp(t, t[ok], a[ok]) * frame["Voltage [V]"].to_numpy()
    assert figure[lg.FigureKind.ENERGY].value == pytest.approx(integrate.trapezoid(power, t) / 3600, rel=1e-6)
    heat = frame["Controller [°C]"].to_numpy()
    assert figure[lg.FigureKind.PAST_LIMIT].value == pytest.approx(crossings(t, heat, 60), abs=2e-3)
    for index, name in enumerate(frame.columns[1:]):
        column = frame[name].to_numpy()[inside]
        peak = next(f for f in got.figures if f.kind == lg.FigureKind.PEAK and f.channel == index)
        assert peak.value == pytest.approx(np.nanmax(column), rel=1e-6)
        assert peak.span.start_s <= t[inside][np.nanargmax(column)] <= peak.span.end_s
    for segment in got.segments:
        ends = [segment.span.start_s, segment.span.end_s]
        for mean, name in zip(segment.means, frame.columns[1:]):
            held = frame[name].notna().to_numpy()
            at = np.unique(np.concatenate([ends, t[held & (t > ends[0]) & (t < ends[1])]]))
            value = np.interp(at, t[held], frame[name].to_numpy()[held])
            assert mean == pytest.approx(integrate.trapezoid(value, at) / np.ptp(at), rel=1e-6)


# Rows of a log on which each of voltage, current and temperature is written: every how many rows, and from which on.
@pytest.mark.parametrize("period, every, first", [
    (0.1, (2, 2, 2), (0, 1, 0)), (1.0, (2, 2, 2), (0, 1, 1)), (0.1, (5, 5, 5), (0, 2, 4)), (0.02, (1, 1, 100), (0, 0, 3)),
    (0.05, (40, 20, 20), (0, 7, 0)), (0.2, (3, 1, 7), (2, 0, 5)),
])
def test_columns_on_different_rows_against_pandas(tmp_path, random, period, every, first):
    """Charge, energy and time past a limit of columns that are mostly empty: pandas fills them over the index, scipy integrates."""
    t = np.arange(0, 260, period).round(3)
    n = len(t)
    a = np.select([t < 10, t < 30, t < 230, t < 245], [0.2, 9, 30 + 6 * np.sin(t / 9) + random.normal(0, 0.5, n), 9], 0.2)
    columns = {"Voltage [V]": 50 - 0.03 * a - t / 100, "Current [A]": a, "Motor [°C]": 20 + 70 * np.clip((t - 30) / 200, 0, 1) + 3 * np.sin(t / 15)}
    frame = pd.DataFrame({"Time [s]": t} | {name: value.round(3) for name, value in columns.items()})
    for name, step, start in zip(columns, every, first):
        frame.loc[~np.isin(np.arange(n), np.arange(start, n, step)), name] = np.nan
    path = tmp_path / "sparse.csv"
    frame.to_csv(path, index=False)
    limit = lg.ChannelLimit(quantity=lg.Quantity.TEMPERATURE, place=None, value=70.0, side=lg.Side.ABOVE, grade=lg.Grade.STOP, basis="test")
    got = summary(read(path), channels=[limit])
    filled = frame.set_index("Time [s]").interpolate(method="index", limit_area="inside").astype(np.float32).astype(float)

    def whole(values):
        values = values.dropna()
        return integrate.trapezoid(values, values.index)

    figure = {f.kind: f for f in got.figures if f.channel is None or f.kind == lg.FigureKind.PAST_LIMIT}
    assert figure[lg.FigureKind.CHARGE].value == pytest.approx(whole(filled["Current [A]"]) / 3.6, rel=1e-5)
    assert figure[lg.FigureKind.ENERGY].value == pytest.approx(whole(filled["Current [A]"] * filled["Voltage [V]"]) / 3600, rel=1e-5)
    hot = filled["Motor [°C]"].dropna()
    past = figure[lg.FigureKind.PAST_LIMIT]
    assert past.value == pytest.approx(crossings(hot.index.to_numpy(), hot.to_numpy(), 70), abs=2e-3)
    assert past.grade == lg.Grade.STOP
    # The columns written on every row tell the same to within what their own steps leave out.
    assert figure[lg.FigureKind.CHARGE].value == pytest.approx(integrate.trapezoid(a, t) / 3.6, rel=0.01)
    assert not [f for f in got.figures if f.kind == lg.FigureKind.DROP_OUT]


@pytest.mark.parametrize("gap", [8, 20, 40, 58])
def test_what_a_gap_holds_lies_in_its_interval(tmp_path, random, gap):
    """Forty flights each, in which a gap hides a hover, a climb or a descent: 93 % and more of the truths lie in the interval."""
    inside = 0
    for flight in range(40):
        t = np.arange(0, 300, 0.1)
        hidden = (t >= 120) & (t < 120 + gap)
        a = np.select([t < 10, t < 30, t < 260, t < 275], [0.2, 8, 25.0, 8], 0.2) + np.where(t < 260, random.normal(0, 0.3, len(t)), 0)
        a = np.where(hidden, 25 * random.uniform(0.6, 1.4), np.maximum(a, 0))
        kept = pd.DataFrame({"Time [s]": t.round(1), "Current [A]": a.round(2)})[~hidden]
        path = tmp_path / f"gap{flight}.csv"
        kept.to_csv(path, index=False)
        got = summary(read(path))
        assert len(got.flying.flights) == 1
        charge = next(f for f in got.figures if f.kind == lg.FigureKind.CHARGE)
        inside += abs(charge.value - integrate.trapezoid(a, t) / 3.6) <= charge.half_width
    assert inside >= 37, inside


def quarter_seconds(frame):
    """Means over quarter seconds, by polars."""
    step = 0.25
    table = pl.from_pandas(frame).with_columns(((pl.col("Time [s]") - frame["Time [s]"][0]) / step).floor().cast(pl.Int64).alias("step"))
    table = table.with_columns(pl.col("Current [A]").fill_nan(None))
    grid = table.group_by("step").mean().sort("step")
    grid = pl.DataFrame({"step": range(grid["step"].max() + 1)}).join(grid, on="step", how="left")
    return pd.DataFrame({name: grid[name].cast(pl.Float64).to_numpy() for name in grid.columns})


def test_flight_and_segments_against_polars_and_pandas(log):
    """The rule of the documentation told again with polars' groups and pandas' rolling windows."""
    path, frame = log
    got = summary(read(path)).flying
    grid = quarter_seconds(frame)
    load = grid["Current [A]"].interpolate() * grid["Voltage [V]"]
    rotor = grid["Rotor [rpm]"].ffill()
    turning = rotor > 0.5 * rotor[rotor > 0].quantile(0.9)
    smoothed = load.rolling(5, center=True, min_periods=1).mean()
    usual = smoothed[turning].quantile(0.75)
    nine = load.rolling(9, center=True, min_periods=1)
    held, spread = nine.mean(), nine.std().fillna(np.inf)

    def least_held(possible):
        fits = turning & (spread <= 0.08 * held) & possible(held)
        run = (fits != fits.shift()).cumsum()
        long = fits & (fits.groupby(run).transform("size") >= 40)
        return held[long].quantile(0.05) if long.any() else np.nan

    hover, ground = least_held(lambda of: of >= 0.45 * usual), least_held(lambda of: of < 0.45 * usual)
    hover = min(usual, hover if hover == hover else usual)
    ground = np.clip(ground if ground == ground else 0.35 * hover, 0.2 * hover, 0.5 * hover)
    flies, landed = ground + 0.45 * (hover - ground), ground + 0.25 * (hover - ground)
    up, flying = False, []
    for value, on in zip(smoothed, turning):
        up = bool(on and value >= (landed if up else flies))
        flying.append(up)
    flying = np.flatnonzero(flying)
    assert np.all(np.diff(flying) == 1), "one flight"
    start, end = flying[0], flying[-1] + 1
    # Smoothing puts the ends off by up to two steps: the load itself says where.
    start = next(step for step in range(start - 2, start + 3) if load[step] >= flies)
    end = next(step + 1 for step in range(end + 1, end - 4, -1) if load[step] >= flies)
    assert len(got.flights) == 1
    assert [got.flights[0].span.start_s, got.flights[0].span.end_s] == pytest.approx([start * 0.25, end * 0.25], abs=1e-9)
    flight = load[start:end]
    middle = flight.median()
    windows = flight.rolling(9, center=True, min_periods=1)
    steady = ((windows.mean() / middle - 1).abs() <= 0.15) & (windows.std().fillna(np.inf) <= 0.08 * middle)
    hover = [s for s in got.flights[0].segments if s.manner == lg.Manner.HOVER]
    for segment in hover:
        steps = steady.loc[round(segment.span.start_s / 0.25) : round(segment.span.end_s / 0.25) - 1]
        assert len(steps) >= 20 and steps.iloc[0] and steps.iloc[-1]
        # Pauses that were bridged are shorter than two seconds.
        runs = (steps != steps.shift()).cumsum()[~steps]
        assert runs.value_counts().max() < 8 if len(runs) else True
    assert sum(s.span.end_s - s.span.start_s for s in hover) == pytest.approx(0.25 * steady.sum(), abs=4)


def test_resistance_against_statsmodels(log):
    """Lags of the current, the charge's polynomial and four steps of memory: GLSAR in statsmodels, Yule and Walker's equations."""
    path, frame = log
    got = summary(read(path))
    grid = quarter_seconds(frame)
    span = got.sag.span
    rows = grid[round(span.start_s / 0.25) : round(span.end_s / 0.25)]
    a, v = rows["Current [A]"].to_numpy(), rows["Voltage [V]"].to_numpy()
    assert not np.isnan(a).any() and not np.isnan(v).any()
    sums = np.concatenate([[0], np.cumsum(a)])
    share = (sums[1:] + sums[:-1]) / sums[-1] - 1
    ends = [-2, -1, 0, 1, 2, 3, 5]
    slow = lfilter([1 - np.exp(-0.25 / 8)], [1, -np.exp(-0.25 / 8)], a, zi=[a[0] * np.exp(-0.25 / 8)])[0]
    at = np.arange(4, len(a) - 2)
    lags = [(sums[at - low + 1] - sums[at - high + 1]) / (high - low) for low, high in zip(ends, ends[1:])]
    fall = np.polynomial.legendre.legvander(share[at], 3)
    x = np.column_stack([*lags, slow[at], fall])
    fit = sm.GLSAR(v[at], x, rho=4).iterative_fit(maxiter=4, rtol=0)
    load = np.concatenate([np.ones(6), [1 - np.exp(-1 / 8)], np.zeros(4)])
    assert got.sag.steps == len(at)
    assert got.sag.resistance_ohm == pytest.approx(-load @ fit.params, rel=1e-3)
    wide = np.sqrt(load @ fit.cov_params() @ load) * stats.t.ppf(0.975, fit.df_resid)
    assert got.sag.half_width_ohm == pytest.approx(wide, rel=2e-2)
    assert got.sag.rest_v == pytest.approx(fit.params[7:] @ [1, -1, 1, -1], rel=1e-4)
    assert abs(got.sag.resistance_ohm - OHM) < 2 * got.sag.half_width_ohm


def test_rise_against_curve_fit(log):
    path, frame = log
    got = summary(read(path)).rises[0]
    t = (frame["Time [s]"] - frame["Time [s]"][0]).to_numpy()
    inside = (t >= got.span.start_s) & (t <= got.span.end_s)
    fit, _ = curve_fit(lambda t, c, d, tau: c + d * (1 - np.exp(-t / tau)), t[inside] - got.span.start_s,
                       frame["Controller [°C]"].to_numpy()[inside], p0=(25, 40, 60))
    assert got.fit.tau_s == pytest.approx(fit[2], rel=0.01)
    assert got.fit.steady_c == pytest.approx(fit[0] + fit[1], abs=0.1)
    assert got.fit.tau_s == pytest.approx(TAU, rel=0.05)


def test_a_thinned_log_keeps_peaks_and_statistics(log):
    path, frame = log
    whole, thin = read(path), read(path, kept=20_000)
    assert thin.rows_per_cell() > 1 and thin.statistics() == whole.statistics()
    for index, name in enumerate(frame.columns[1:]):
        line = thin.line(index, lg.Span(start_s=0.0, end_s=1e4), 300)
        assert [line.least, line.greatest] == pytest.approx([frame[name].min(), frame[name].max()], rel=1e-6)


def test_plot_reaches_what_all_samples_reach(log):
    path, frame = log
    got = read(path)
    line = got.line(1, lg.Span(start_s=100.0, end_s=200.0), 400)
    points = pd.DataFrame([(p.time_s, p.value) for stroke in line.strokes for p in stroke], columns=["t", "v"])
    rows = pd.DataFrame({"t": frame["Time [s]"] - frame["Time [s]"][0], "v": frame["Current [A]"].astype(np.float32)})
    rows = rows[(rows.t >= 100) & (rows.t < 200)].dropna()
    column = lambda of: ((of.t - 100) * 4).astype(int)
    expected = rows.groupby(column(rows)).v.agg(["min", "max"])
    inside = points[(points.t >= 100) & (points.t < 200)]
    drawn = inside.groupby(column(inside)).v.agg(["min", "max"])
    pd.testing.assert_frame_equal(drawn, expected, check_dtype=False, check_names=False)


# Two-sided, allowance .5: J. M. Lucas and R. B. Crosier, Technometrics 24 (1982), as tabulated in D. C. Montgomery's "Introduction to
# Statistical Quality Control" (the table from memory), and the integral equation of A. L. Goel and S. M. Wu, Technometrics 13 (1971),
# solved here by Nystroem's method with 60 Gauss points.
@pytest.mark.parametrize("threshold, shift, published", [(4, 0, 168), (5, 0, 465), (4, 0.25, 74.2), (5, 0.25, 139), (4, 0.5, 26.6), (5, 1, 10.4), (4, 2, 3.34)])
def test_run_lengths_published_and_by_integral_equation(threshold, shift, published):
    def by_equation(shift):
        nodes, weights = np.polynomial.legendre.leggauss(60)
        x, w = threshold * (nodes + 1) / 2, weights * threshold / 2
        k = 0.5
        # Unknowns: the length from nought, then from each node.
        at = np.concatenate([[0], x])
        kernel = np.column_stack([stats.norm.cdf(k - shift - at), w * stats.norm.pdf(x[None, :] - at[:, None] + k - shift)])
        return np.linalg.solve(np.eye(61) - kernel, np.ones(61))[0]

    for side in (shift, -shift):
        assert lg.drift_run_length(threshold, side) == pytest.approx(by_equation(side), rel=5e-3)
    both = 1 / (1 / lg.drift_run_length(threshold, shift) + 1 / lg.drift_run_length(threshold, -shift))
    assert both == pytest.approx(published, rel=4e-3)


QUESTION = lg.DriftQuestion(false_alarm=0.05, readings=100, resolution=0.01)


def test_scores_against_statsmodels(random):
    """Recursive residuals of a constant are statsmodels'; scaled by the scatter before them they are Student's t."""
    for n in (5, 30, 100):
        readings = random.normal(20, 1, n)
        got = lg.test_drift(readings.tolist(), QUESTION)
        residuals = recursive_olsresiduals(sm.OLS(readings, np.ones(n)).fit(), skip=1)[4]
        for i in range(2, n):
            t = residuals[i] / readings[:i].std(ddof=1)
            score = np.clip(stats.norm.ppf(stats.t.cdf(t, i - 1)), -3, 3)
            assert got.scores[i] == pytest.approx(score, abs=1e-6)
        up = 0.0
        for score, seen in zip(got.scores, got.up):
            up = max(0.0, up + score - 0.5)
            assert seen == pytest.approx(up, abs=1e-9)


def test_stated_false_alarm_rate_by_simulation(random):
    """Lives simulated with numpy, scores by scipy, the core's threshold: alarms are no rarer than 0.6 of what is stated and never more."""
    lives, n = 40_000, QUESTION.readings
    threshold = lg.test_drift([1.0, 2.0], QUESTION).threshold
    readings = random.normal(0, 1, (lives, n))
    count = np.arange(1, n + 1)
    mean = np.cumsum(readings, axis=1) / count
    squares = np.cumsum(readings**2, axis=1) - count * mean**2
    up = down = np.zeros(lives)
    seen = np.zeros(lives, bool)
    for i in range(2, n):
        t = (readings[:, i] - mean[:, i - 1]) / np.sqrt(squares[:, i - 1] / (i - 1)) * np.sqrt(i / (i + 1))
        score = np.clip(stats.norm.ppf(stats.t.cdf(t, i - 1)), -3, 3)
        up, down = np.maximum(0, up + score - 0.5), np.maximum(0, down - score - 0.5)
        seen |= (up > threshold) | (down > threshold)
    rate = seen.mean()
    assert 0.6 * QUESTION.false_alarm < rate < QUESTION.false_alarm + 3 * np.sqrt(0.05 * 0.95 / lives)
