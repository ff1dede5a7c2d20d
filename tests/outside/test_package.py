"""The check of a package's libraries against files made by other programs: a C compiler's libraries, a zip writer's archives.

What a phone with pages of 16 KB asks: segments aligned to 16 KB (ELF, p_align) and stored on such a page of the file.
"""
import importlib.machinery
import importlib.util
import pathlib
import shutil
import struct
import subprocess
import zipfile

import pytest

TOOL = pathlib.Path(__file__).parents[2] / "android-shell/tools/check-package"
loader = importlib.machinery.SourceFileLoader("check_package", str(TOOL))
check = importlib.util.module_from_spec(importlib.util.spec_from_loader(loader.name, loader))
loader.exec_module(check)

ABI = "x86_64"
NAMES = [f"lib/{ABI}/{name}" for name in check.LIBRARIES]


@pytest.fixture(scope="module")
def library(tmp_path_factory):
    """Makes a library for this machine whose segments are aligned to so much; readelf confirms it."""
    if not shutil.which("cc") or not shutil.which("readelf"):
        pytest.skip("no C compiler here")
    if subprocess.run(["cc", "-dumpmachine"], capture_output=True, text=True).stdout.split("-")[0] != "x86_64":
        pytest.skip("made for a machine of x86_64")
    folder = tmp_path_factory.mktemp("libraries")
    source = folder / "one.c"
    source.write_text("int one(void) { return 1; }\n")

    def made(align):
        out = folder / f"lib{align}.so"
        subprocess.run(["cc", "-shared", "-fPIC", f"-Wl,-z,max-page-size={align}", "-o", out, source], check=True)
        told = subprocess.run(["readelf", "-lW", out], capture_output=True, text=True, check=True).stdout
        loads = [int(line.split()[-1], 16) for line in told.splitlines() if line.split()[:1] == ["LOAD"]]
        assert loads and set(loads) == {align}
        assert check.elf(out.read_bytes()) == (64, 62, loads)
        return out.read_bytes()

    return made


def package(path, libraries, shift=0, packed=False, dex=b"classes.dex"):
    """A package whose libraries begin on a page of 16 KB, or so many bytes behind one."""
    with zipfile.ZipFile(path, "w") as apk:
        for name in check.ALWAYS:
            apk.writestr(name, dex if name == "classes.dex" else name)
        for name, data in libraries.items():
            entry = zipfile.ZipInfo(name)
            entry.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
            pad = (shift - (apk.fp.tell() + 30 + len(name) + 4)) % check.PAGE
            entry.extra = struct.pack("<HH", 0xD935, pad) + bytes(pad)
            apk.writestr(entry, data)
    return path


def test_a_package_as_it_should_be_has_no_fault(tmp_path, library):
    sound = library(check.PAGE)
    path = package(tmp_path / "a.apk", dict.fromkeys(NAMES, sound))
    assert list(check.faults(path, [ABI])) == []
    subprocess.run([TOOL, path, "--abis", ABI], check=True)
    assert list(check.faults(package(tmp_path / "b.apk", {}), [])) == []


def test_segments_of_four_kilobytes_are_found(tmp_path, library):
    path = package(tmp_path / "a.apk", {NAMES[0]: library(check.PAGE), NAMES[1]: library(4096)})
    (fault,) = check.faults(path, [ABI])
    assert fault.startswith(f"{NAMES[1]} has segments aligned to [4096")


@pytest.mark.parametrize("shift", [4096, 4, 1])
def test_a_library_on_no_page_is_found(tmp_path, library, shift):
    path = package(tmp_path / "a.apk", dict.fromkeys(NAMES, library(check.PAGE)), shift=shift)
    found = list(check.faults(path, [ABI]))
    assert len(found) == 2 and all("on no page of 16 KB" in fault for fault in found)
    assert subprocess.run([TOOL, path, "--abis", ABI], capture_output=True).returncode == 1


def test_a_packed_library_another_processors_and_one_too_few_or_too_many_are_found(tmp_path, library):
    sound = library(check.PAGE)
    packed = list(check.faults(package(tmp_path / "a.apk", dict.fromkeys(NAMES, sound), packed=True), [ABI]))
    assert len(packed) == 2 and all("is packed" in fault for fault in packed)
    other = {f"lib/arm64-v8a/{name}": sound for name in check.LIBRARIES}
    found = list(check.faults(package(tmp_path / "b.apk", other), ["arm64-v8a"]))
    assert len(found) == 2 and all("machine 62; arm64-v8a is 64 bits, machine 183" in fault for fault in found)
    lone = list(check.faults(package(tmp_path / "c.apk", {NAMES[0]: sound}), []))
    assert lone == [f"{NAMES[0]} is in it and was not asked for"]
    assert list(check.faults(package(tmp_path / "d.apk", {NAMES[0]: sound}), [ABI])) == [f"{NAMES[1]} is not in it"]
    noise = list(check.faults(package(tmp_path / "e.apk", dict.fromkeys(NAMES, b"#!/bin/sh")), [ABI]))
    assert len(noise) == 2 and all("no ELF file" in fault for fault in noise)


def test_a_package_without_the_texts_of_its_licences_is_found(tmp_path, monkeypatch):
    monkeypatch.setattr(check, "ALWAYS", check.ALWAYS[:-1])
    path = package(tmp_path / "a.apk", {})
    assert subprocess.run([TOOL, path], capture_output=True, text=True).stderr == "check-package: assets/licences.txt is not in it\n"


def test_a_program_for_a_computer_is_found(tmp_path):
    planted = package(tmp_path / "a.apk", {}, dex=b"dex\n035\0 Lorg/liftgate/shell/Core; Lorg/liftgate/desk/DeskMain;")
    assert list(check.faults(planted, [])) == ["classes.dex names Lorg/liftgate/desk/, which runs on a computer"]
    own = package(tmp_path / "b.apk", {}, dex=b"dex\n035\0 Lorg/liftgate/shell/Core;")
    assert list(check.faults(own, [])) == []
