"""A backup read without Liftgate, by its own page of documentation alone: as a container (zipfile), against its schema (jsonschema), and
with its chain walked (hashlib). SHA-256 is FIPS 180-4, the container PKWARE's APPNOTE: both are the standard library's here."""

import hashlib
import io
import json
import shutil
import zipfile
from pathlib import Path

import jsonschema
import liftgate as lg
import pytest
from screens import control, go, saved

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "core/docs/backup.schema.json").read_text())


def against(part):
    return jsonschema.Draft202012Validator({"$defs": SCHEMA["$defs"], "$ref": f"#/$defs/{part}"})


def opened(path, now):
    phone = lg.Liftgate.open(str(path), now)
    pilot = phone.pilot()
    go(pilot, now, "Backup")
    return phone, pilot


@pytest.fixture(scope="module")
def walked(in_service, tmp_path_factory):
    """An aircraft in service: the moment, the count and the head of its chain, and its backup."""
    file, now = in_service
    phone, pilot = opened(shutil.copy(file, tmp_path_factory.mktemp("backup")), now)
    backup = saved(pilot, now, "Save a backup")
    verified = phone.verify()
    phone.close_journal()
    return now, verified, backup


def brought_in(pilot, now, file, length=None):
    """The page that says what came of a file that was picked."""
    shown = pilot.picked(control(pilot.screen(now), "Bring a backup in").token, "it.zip", length, now)
    assert shown.screen.work
    pilot.fed(file, now)
    screen = pilot.fed(b"", now).screen
    while screen.work:
        screen = pilot.tap(screen.work.token, now).screen
    return screen


def chain(entries):
    """The count and the head, walked as the page says."""
    long = lambda number: number.to_bytes(8, "little", signed=True)
    head, count = bytes(32), 0
    for entry in entries:
        assert entry["seq"] == count + 1 and bytes.fromhex(entry["previous"]) == head
        parts = [head, long(entry["seq"]), bytes.fromhex(entry["id"]), entry["at"].encode(), long(entry["monotonic_ms"])]
        parts += [entry["boot"].encode(), entry["author"].encode(), entry["kind"].encode(), long(entry["version"]), entry["body"].encode()]
        head = hashlib.sha256(b"".join(long(len(part)) + part for part in parts)).digest()
        assert head.hex() == entry["digest"]
        count += 1
    return count, head.hex()


def test_anyone_reads_it_by_its_page(walked):
    _, verified, backup = walked
    with zipfile.ZipFile(io.BytesIO(backup)) as container:
        assert container.testzip() is None
        assert container.namelist()[:2] == ["read-me.txt", "entries.jsonl"] and container.namelist()[-1] == "manifest.json"
        manifest = json.loads(container.read("manifest.json"))
        lines = container.read("entries.jsonl")
    against("manifest").validate(manifest)
    assert manifest["entries"]["bytes"] == len(lines)
    assert manifest["entries"]["sha256"] == hashlib.sha256(lines).hexdigest()
    entries = [json.loads(line) for line in lines.decode().splitlines()]
    schema = against("entry")
    for entry in entries:
        schema.validate(entry)
        json.loads(entry["body"]), json.loads(entry["author"])
    assert chain(entries) == (verified.count, verified.head) == (manifest["entries"]["count"], manifest["entries"]["head"])


@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED])
def test_packed_again_by_another_program_it_comes_back(walked, method, tmp_path):
    now, verified, backup = walked
    again = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(backup)) as container, zipfile.ZipFile(again, "w", method) as other:
        for name in container.namelist():
            other.writestr(name, container.read(name))
    phone, pilot = opened(tmp_path / "new.db", now)
    screen = brought_in(pilot, now, again.getvalue(), len(again.getvalue()))
    pilot.tap(control(screen, "Go on with the backup").token, now)
    assert (phone.verify().count, phone.verify().head) == (verified.count, verified.head)
    phone.close_journal()


@pytest.mark.parametrize("what", ["a bomb", "a link", "too many files", "paths out of it", "a name twice"])
def test_what_was_made_to_do_harm_is_refused(what, tmp_path, walked):
    now, _, backup = walked
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(backup)) as container, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as other:
        manifest = json.loads(container.read("manifest.json"))
        if what == "a bomb":
            huge = b" " * (64 << 20)
            other.writestr("entries.jsonl", huge)
        elif what == "a link":
            link = zipfile.ZipInfo("entries.jsonl")
            link.external_attr = 0o120777 << 16
            other.writestr(link, "/etc/passwd")
        elif what == "too many files":
            for number in range(30_000):
                other.writestr(f"logs/{number}", b"")
        elif what == "paths out of it":
            manifest["logs"] = [{"file": "logs/../../../../tmp/liftgate-was-here", "bytes": 1, "sha256": "0" * 64}]
            other.writestr("entries.jsonl", container.read("entries.jsonl"))
            other.writestr("logs/../../../../tmp/liftgate-was-here", b"x")
        else:
            other.writestr("entries.jsonl", container.read("entries.jsonl"))
            with pytest.warns(UserWarning):
                other.writestr("entries.jsonl", b"")
        other.writestr("manifest.json", json.dumps(manifest))
    phone, pilot = opened(tmp_path / "new.db", now)
    before = phone.verify()
    screen = brought_in(pilot, now, made.getvalue())
    verdict = next(block for block in screen.blocks if isinstance(block, lg.Block.VERDICT))
    assert verdict.text == "This file cannot be brought in.", verdict
    assert phone.verify() == before
    assert not Path("/tmp/liftgate-was-here").exists()
    phone.close_journal()
