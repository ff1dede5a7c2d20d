"""Under which licences everything is that the library on a phone is made of: cargo-deny holds them against deny.toml, and the page that tells
what each asks for, core/docs/licences.md, names every crate that is shipped.

Published source: the SPDX License List and its expressions (SPDX 2.3, annex D), by which crates name their licences and cargo-deny reads them.

UPDATE_LICENCES=1 takes a wanted change into the page.
"""

import importlib.machinery
import importlib.util
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).resolve().parent
ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "core" / "docs" / "licences.md"
PHONES = ["aarch64-linux-android", "armv7-linux-androideabi", "x86_64-linux-android"]
DENY = Path(sys.executable).parent / "cargo-deny"


def deny(config: Path) -> subprocess.CompletedProcess:
    command = [DENY, "--manifest-path", ROOT / "bindings" / "Cargo.toml", "--locked", "--config", config]
    return subprocess.run([*command, "check", "licenses", "bans", "sources"], capture_output=True, text=True)


def test_every_crate_is_under_a_licence_that_was_read():
    said = deny(HERE / "deny.toml")
    assert said.returncode == 0, said.stderr + said.stdout


def test_a_licence_that_was_not_read_is_refused(tmp_path):
    config = tmp_path / "deny.toml"
    config.write_text((HERE / "deny.toml").read_text().replace('"MPL-2.0", ', ""))
    said = deny(config)
    assert said.returncode != 0
    assert "MPL-2.0" in said.stderr and "uniffi" in said.stderr


def test_a_crate_that_is_banned_is_refused(tmp_path):
    config = tmp_path / "deny.toml"
    config.write_text((HERE / "deny.toml").read_text().replace('crate = "curl"', 'crate = "zip"'))
    said = deny(config)
    assert said.returncode != 0 and "zip" in said.stderr


def shipped_for(phone: str) -> set[tuple[str, str, str]]:
    """The crates in the library of such a phone: what runs there, and not what only builds it."""
    command = ["cargo", "tree", "--locked", "--package", "liftgate-bindings", "--target", phone, "--prefix", "none"]
    edges = ["--edges", "normal,no-proc-macro", "--no-dedupe", "--format", "{p}|{l}"]
    told = subprocess.run([*command, *edges], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    lines = (line.split("|") for line in told.splitlines())
    crates = ((*package.split(" ")[:2], licence.strip()) for package, licence in lines if "(/" not in package)
    return {(name, version.removeprefix("v"), licence) for name, version, licence in crates}


def rows() -> list[str]:
    shipped = set().union(*(shipped_for(phone) for phone in PHONES))
    return [f"| {name} | {version} | {licence} |" for name, version, licence in sorted(shipped)]


def test_the_page_names_every_crate_that_is_shipped():
    head, _, rest = PAGE.read_text().partition("| crate | version | licence |\n| --- | --- | --- |\n")
    table, _, tail = rest.partition("\n\n")
    assert rest, "the page has no table of crates"
    wanted = "\n".join(rows())
    if os.environ.get("UPDATE_LICENCES"):
        PAGE.write_text(f"{head}| crate | version | licence |\n| --- | --- | --- |\n{wanted}\n\n{tail}")
        table = wanted
    assert table == wanted, "UPDATE_LICENCES=1 takes it into core/docs/licences.md"
    assert len(rows()) > 50


TOOL = ROOT / "android-shell" / "tools" / "licence-texts"
loader = importlib.machinery.SourceFileLoader("licence_texts", str(TOOL))
gathered = importlib.util.module_from_spec(importlib.util.spec_from_loader(loader.name, loader))
loader.exec_module(gathered)


def test_every_crate_that_is_shipped_brings_its_text(tmp_path):
    out = tmp_path / "licences.txt"
    subprocess.run([TOOL, out], check=True)
    page = out.read_text()
    crates = [row.strip("| ").split(" | ") for row in rows()]
    told = {re.match(r"(\S+) (\S+): (.+)", block).groups() for block in page.split("\n\n") if re.match(r"\S+ \d\S*: ", block)}
    assert {(name, version) for name, version, _ in told} == {(name, version) for name, version, _ in crates}
    numbers = {int(number) for line in page.splitlines() if line.startswith("Text [") for number in re.findall(r"\d+", line)}
    assert numbers == set(range(1, max(numbers) + 1)) == {int(number) for number in re.findall(r"(?m)^\[(\d+)\]$", page)}
    # The sentence that the Independent JPEG Group asks for, and where the source of what is under MPL-2.0 can be had.
    assert "based in part on the work of the Independent JPEG Group" in page
    assert all(re.search(rf"the crate {name}, and at http\S+\.", page) for name, _, licence in crates if licence == "MPL-2.0")
    assert "Permission is hereby granted, free of charge" in page and "TERMS AND CONDITIONS FOR USE, REPRODUCTION" in page
    assert "GNU GENERAL PUBLIC LICENSE" not in page


def test_a_crate_whose_text_is_missing_stops_the_package(tmp_path, monkeypatch, capsys):
    real = gathered.texts
    monkeypatch.setattr(gathered, "texts", lambda folder, licences: [] if "kamadak" in folder.name else real(folder, licences))
    monkeypatch.setattr(sys, "argv", ["licence-texts", str(tmp_path / "licences.txt")])
    assert gathered.main() == 1
    assert "no text came with kamadak-exif" in capsys.readouterr().err
    assert not (tmp_path / "licences.txt").exists()


@pytest.mark.parametrize(
    ("expression", "licences"),
    [
        ("MIT OR Apache-2.0", ["MIT"]),
        ("Apache-2.0 OR GPL-2.0-only", ["Apache-2.0"]),
        ("(MIT OR Apache-2.0) AND IJG", ["MIT", "IJG"]),
        ("Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT", ["MIT"]),
        ("Unlicense/MIT", ["MIT"]),
        ("Zlib", ["Zlib"]),
    ],
)
def test_of_a_choice_one_licence_is_taken(expression, licences):
    assert gathered.taken(expression) == licences
