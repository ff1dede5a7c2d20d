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
