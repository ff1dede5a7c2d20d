"""Reads the same logs with Liftgate's core and with polars, works out the same statistics, and prints time and peak memory of both.

    tests/.venv/bin/python tests/throughput.py

Each reader is a process of its own on one thread; they take turns, and the least of several turns counts, so that what else the machine does
weighs on both alike. Polars' time runs from its call to its answer, without Python's start; Liftgate's from its program's start to its answer.
Peak memory is the process's own (VmHWM); for polars, what Python held before the call is told beside it and taken off.
No part of tests/run: it measures, and asserts only that both come to the same figures.
"""

import json
import math
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
TARGET = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
WORK = TARGET / "telemetry"
TURNS = int(os.environ.get("TURNS", "5"))
NAMES = ["Voltage [V]", "Current [A]", "Rotor [rpm]", "Controller [°C]"]


def long_log(path):
    """Four million rows of five columns, about 119 MB; nothing real."""
    import numpy as np

    random = np.random.default_rng(1)
    n = 4_000_000
    t = np.arange(n) * 0.01
    v = 50 - 0.2 * np.sin(t / 20) + random.normal(0, 0.05, n)
    a = 60 + 20 * np.sin(t / 7) + random.normal(0, 2, n)
    r = 1400 + random.normal(0, 4, n)
    c = 30 + 40 * (1 - np.exp(-t / 300)) + random.normal(0, 0.2, n)
    with open(path, "w") as out:
        out.write(",".join(["Time [s]", *NAMES]) + "\n")
        for s in range(0, n, 100_000):
            rows = zip(*(x[s : s + 100_000] for x in (t, v, a, r, c)))
            out.write("\n".join("%.2f,%.2f,%.1f,%.0f,%.1f" % row for row in rows) + "\n")


def wide_log(path):
    """A hundred columns, of which five are read; about 100 MB."""
    import numpy as np

    random = np.random.default_rng(2)
    n, extra = 190_000, 95
    t = np.arange(n) * 0.01
    some = [50 + random.normal(0, 0.05, n), 60 + random.normal(0, 2, n), 1400 + random.normal(0, 4, n), 50 + random.normal(0, 9, n)]
    filler = [",".join("%.1f" % x for x in random.normal(0, 100, extra)) for _ in range(997)]
    with open(path, "w") as out:
        out.write(",".join(["Time [s]", *NAMES[:2], *(f"X{i}" for i in range(extra)), *NAMES[2:]]) + "\n")
        for i in range(n):
            out.write("%.2f,%.2f,%.1f,%s,%.0f,%.1f\n" % (t[i], some[0][i], some[1][i], filler[i % 997], some[2][i], some[3][i]))


def peak_kib():
    return int(next(line for line in open("/proc/self/status") if line.startswith("VmHWM")).split()[1])


def polars_reads(path, mode):
    """Runs in a process of its own."""
    import time

    import polars as pl

    held = peak_kib()
    begun = time.perf_counter()
    types = {name: pl.Float64 for name in ["Time [s]", *NAMES]}
    columns = list(types)
    if mode == "eager":
        table = pl.read_csv(path, columns=columns, schema_overrides=types).lazy()
    else:
        table = pl.scan_csv(path, schema_overrides=types).select(columns)
    v, a, _, c = (pl.col(name) for name in NAMES)
    step = pl.col("Time [s]").diff().fill_null(0.0)

    def trapezoid(value):
        return (step * (value + value.shift(1)) / 2).sum()

    # Time over 60 by straight lines, as the core does it.
    over, before = c - 60, (c - 60).shift(1)
    part = (
        pl.when((over > 0) & (before > 0)).then(1.0)
        .when((over > 0) & (before <= 0)).then(over / (over - before))
        .when((over <= 0) & (before > 0)).then(before / (before - over))
        .otherwise(0.0)
    )
    ask = [f(pl.col(n)).alias(f"{n}/{w}") for n in NAMES
           for w, f in (("count", pl.Expr.count), ("mean", pl.Expr.mean), ("sd", pl.Expr.std), ("least", pl.Expr.min), ("greatest", pl.Expr.max))]
    ask += [trapezoid(a).alias("charge_as"), trapezoid(a * v).alias("energy_ws"), (step * part).sum().alias("over_s")]
    row = table.select(ask).collect(engine="streaming" if mode == "streaming" else "in-memory").row(0, named=True)
    seconds = time.perf_counter() - begun
    print(json.dumps({"seconds": seconds, "peak_kib": peak_kib(), "held_kib": held, **row}))


def run(command):
    return json.loads(subprocess.run(command, check=True, capture_output=True, text=True,
                                     env={**os.environ, "POLARS_MAX_THREADS": "1"}).stdout)


def same(core, other):
    for name in NAMES:
        for what in ("count", "mean", "sd", "least", "greatest"):
            mine, theirs = core["columns"][name.split(" [")[0]][what], other[f"{name}/{what}"]
            assert math.isclose(mine, theirs, rel_tol=1e-9), (name, what, mine, theirs)
    for what in ("charge_as", "energy_ws", "over_s"):
        # The core keeps values in 32 bits; a value is off by a twenty-millionth at most.
        assert math.isclose(core[what], other[what], rel_tol=1e-6), (what, core[what], other[what])


def main():
    WORK.mkdir(parents=True, exist_ok=True)
    subprocess.run(["cargo", "build", "--release", "--quiet", "-p", "liftgate-core", "--example", "telemetry_throughput"], cwd=ROOT, check=True)
    core = TARGET / "release" / "examples" / "telemetry_throughput"
    for name, make in (("long", long_log), ("wide", wide_log)):
        path = WORK / f"{name}-1.csv"
        if not path.exists():
            make(path)
        ways = {"core": [core, path], **{m: [sys.executable, __file__, "--polars", path, m] for m in ("eager", "lazy", "streaming")}}
        best = {}
        for _ in range(TURNS):
            for way, command in ways.items():
                result = run(command)
                if way not in best or result["seconds"] < best[way]["seconds"]:
                    best[way] = {**result, "peak_kib": max(result["peak_kib"], best.get(way, result)["peak_kib"])}
        mine = best["core"]
        print(f"{name}: {path.stat().st_size / 1e6:.0f} MB, {mine['rows']} rows")
        print(f"  core              {mine['seconds']:.3f} s   peak {mine['peak_kib'] / 1024:.0f} MiB, of which kept columns {mine['kept_bytes'] / 2**20:.0f} MiB")
        for way in ("eager", "lazy", "streaming"):
            other = best[way]
            same(mine, other)
            own = other["peak_kib"] - other["held_kib"]
            print(f"  polars {way:10} {other['seconds']:.3f} s   peak {other['peak_kib'] / 1024:.0f} MiB, {own / 1024:.0f} MiB above Python's"
                  f"   time ratio {other['seconds'] / mine['seconds']:.2f}, memory {mine['peak_kib'] / other['peak_kib']:.2f} ({mine['peak_kib'] / own:.2f})")


if __name__ == "__main__":
    if len(sys.argv) == 4 and sys.argv[1] == "--polars":
        polars_reads(sys.argv[2], sys.argv[3])
    else:
        main()
