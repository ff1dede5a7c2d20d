"""The generated Python bindings, made from this tree for this run: built by cargo, written into target/, never committed."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TARGET = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))


def _library() -> Path:
    for name in ("libliftgate.so", "libliftgate.dylib", "liftgate.dll"):
        if (TARGET / "debug" / name).exists():
            return TARGET / "debug" / name
    raise RuntimeError(f"cargo left no liftgate library in {TARGET / 'debug'}")


def _generate() -> Path:
    out = TARGET / "python"
    subprocess.run(
        ["cargo", "build", "--quiet", "-p", "liftgate-bindings", "--features", "generator,calculations"],
        cwd=ROOT,
        check=True,
    )
    library = _library()
    out.mkdir(exist_ok=True)
    subprocess.run(
        [TARGET / "debug" / "bindings-generator", "generate", library, "--language", "python", "--out-dir", out],
        cwd=ROOT,
        check=True,
        stdout=subprocess.DEVNULL,
    )
    shutil.copy(library, out)
    return out


sys.path.insert(0, str(_generate()))


def pytest_report_header(config):
    import liftgate

    return f"liftgate bindings: {liftgate.__file__}"


@pytest.fixture
def random():
    """Random inputs that are the same in every run."""
    import numpy

    return numpy.random.default_rng(20260307)


@pytest.fixture(scope="session")
def in_service(tmp_path_factory):
    """A closed journal of an aircraft in service, and the moment at which it was left. It is walked once: whoever opens it takes a copy."""
    import liftgate

    folder = tmp_path_factory.mktemp("walked")
    subprocess.run(["cargo", "run", "--quiet", "-p", "liftgate-tests", "--bin", "walked", "--", folder], cwd=ROOT, check=True)
    wall_ms, offset_min, monotonic_ms, boot = (folder / "service.txt").read_text().split()
    now = liftgate.Moment(wall_ms=int(wall_ms), offset_min=int(offset_min), monotonic_ms=int(monotonic_ms), boot=boot)
    return folder / "service.db", now
