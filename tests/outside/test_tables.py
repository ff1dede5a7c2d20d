"""The tables as a data library and a spreadsheet library read them: a walked journal, saved through the app's own controls."""

import datetime
import io
import json
import subprocess
from pathlib import Path

import liftgate as lg
import openpyxl
import polars
import pytest

ROOT = Path(__file__).resolve().parents[2]
TABLES = ["Flights and runs", "Readings after landing", "Flight packs", "Parts and their lives", "Changes of settings"]


@pytest.fixture(scope="module")
def page(tmp_path_factory):
    """The pilot's handle and the moment, at the page of the dossier of an aircraft in service."""
    folder = tmp_path_factory.mktemp("walked")
    subprocess.run(["cargo", "run", "--quiet", "-p", "liftgate-tests", "--bin", "walked", "--", folder], cwd=ROOT, check=True)
    wall_ms, offset_min, monotonic_ms, boot = (folder / "service.txt").read_text().split()
    now = lg.Moment(wall_ms=int(wall_ms), offset_min=int(offset_min), monotonic_ms=int(monotonic_ms), boot=boot)
    phone = lg.Liftgate.open(str(folder / "service.db"), now)
    pilot = phone.pilot()
    while pilot.screen(now).back:
        pilot.tap(pilot.screen(now).back.token, now)
    for words in ["Aircraft", "The dossier"]:
        pilot.tap(control(pilot.screen(now), words).token, now)
    yield pilot, now
    phone.close_journal()


def control(screen, words):
    for block in screen.blocks:
        if isinstance(block, lg.Block.ROW) and block.control and block.title == words:
            return block.control
        if isinstance(block, lg.Block.CHOICE):
            for option in block.options:
                if option.label == words:
                    return option
    return next(one for one in screen.foot if one.label == words)


def saved(page, words):
    pilot, now = page
    shown = pilot.saving(control(pilot.screen(now), words).token, "table", now)
    out = b""
    while shown.screen.work:
        piece = pilot.piece()
        out += piece or b""
        shown = pilot.wrote(lg.Wrote.KEPT, now)
    return out


@pytest.mark.parametrize("table", TABLES)
def test_polars_reads_both_forms_alike(page, table):
    pilot, now = page
    pilot.tap(control(pilot.screen(now), "CSV, for a spreadsheet").token, now)
    csv = polars.read_csv(io.BytesIO(saved(page, table)), infer_schema_length=None)
    pilot.tap(control(pilot.screen(now), "JSON, for a program").token, now)
    rows = json.loads(saved(page, table))
    assert csv.height == len(rows) > 0 and set(csv.columns) == set(rows[0])
    for column in csv.columns:
        ends = column.rsplit("_", 1)[-1]
        if ends in {"rpm", "s", "c", "mah", "g", "v", "mohm"}:
            assert csv[column].dtype.is_numeric() or csv[column].is_null().all(), (column, csv[column].dtype)
        if column.endswith("_at"):
            for text in csv[column].drop_nulls():
                assert datetime.datetime.fromisoformat(text).tzinfo is not None
        for one, other in zip(csv[column].to_list(), (row[column] for row in rows), strict=True):
            if isinstance(other, float | int):
                assert one == pytest.approx(other)


@pytest.mark.parametrize("table", TABLES)
def test_no_cell_of_a_spreadsheet_is_a_formula(page, table, tmp_path):
    pilot, now = page
    pilot.tap(control(pilot.screen(now), "CSV, for a spreadsheet").token, now)
    frame = polars.read_csv(io.BytesIO(saved(page, table)), infer_schema_length=0)
    book = openpyxl.Workbook()
    for row in [frame.columns, *frame.rows()]:
        book.active.append(row)
    book.save(tmp_path / "table.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "table.xlsx").active
    assert sheet.max_row == frame.height + 1
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
