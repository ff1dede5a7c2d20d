"""The tables as a data library and a spreadsheet library read them: a walked journal, saved through the app's own controls."""

import datetime
import io
import json
import shutil

import liftgate as lg
import openpyxl
import polars
import pytest
from screens import control, go, saved

TABLES = ["Flights and runs", "Readings after landing", "Flight packs", "Parts and their lives", "Changes of settings"]


@pytest.fixture(scope="module")
def page(in_service, tmp_path_factory):
    """The pilot's handle and the moment, at the page of the dossier of an aircraft in service."""
    file, now = in_service
    phone = lg.Liftgate.open(shutil.copy(file, tmp_path_factory.mktemp("tables")), now)
    pilot = phone.pilot()
    go(pilot, now, "Aircraft", "The dossier")
    yield pilot, now
    phone.close_journal()


@pytest.mark.parametrize("table", TABLES)
def test_polars_reads_both_forms_alike(page, table):
    pilot, now = page
    pilot.tap(control(pilot.screen(now), "CSV, for a spreadsheet").token, now)
    csv = polars.read_csv(io.BytesIO(saved(pilot, now, table)), infer_schema_length=None)
    pilot.tap(control(pilot.screen(now), "JSON, for a program").token, now)
    rows = json.loads(saved(pilot, now, table))
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
    frame = polars.read_csv(io.BytesIO(saved(pilot, now, table)), infer_schema_length=0)
    book = openpyxl.Workbook()
    for row in [frame.columns, *frame.rows()]:
        book.active.append(row)
    book.save(tmp_path / "table.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "table.xlsx").active
    assert sheet.max_row == frame.height + 1
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
