"""The app's own surface as another language meets it: turns, tokens, and errors that say what to do."""

import sqlite3

import liftgate as lg
import pytest

NOW = lg.Moment(wall_ms=1_772_874_000_000, offset_min=60, monotonic_ms=1_000, boot="first")


def controls(screen):
    for block in screen.blocks:
        if isinstance(block, lg.Block.ROW) and block.control:
            yield block.title, block.control
        elif isinstance(block, lg.Block.CHOICE):
            yield from ((option.label, option) for option in block.options)
    yield from ((control.label, control) for control in screen.foot)


def tap(pilot, words):
    found = dict(reversed(list(controls(pilot.screen(NOW)))))
    return pilot.tap(found[words].token, NOW)


def test_a_figure_is_entered_and_the_chain_closes(tmp_path):
    phone = lg.Liftgate.open(str(tmp_path / "journal.db"), NOW)
    pilot = phone.pilot()
    assert phone.turn() == lg.Turn.PILOT and pilot.screen(NOW).name == "board"
    tap(pilot, "Aircraft")
    tap(pilot, "Main rotor diameter")
    pilot.edit("value", "1000", NOW)
    with pytest.raises(lg.LiftgateError.Refused) as refused:
        tap(pilot, "Record it: measured")
    assert refused.value.field == "value"
    assert "between 0.8 and 3.5 m" in refused.value.reason
    pilot.edit("value", "1,8", NOW)
    assert tap(pilot, "Record it: measured").said == "Main rotor diameter: 1.8 m, measured"
    assert phone.verify().count == 2
    with pytest.raises(lg.LiftgateError.NotYourTurn):
        phone.spotter()
    phone.close_journal()
    with pytest.raises(lg.LiftgateError.Refused):
        pilot.screen(NOW)


def test_a_journal_is_open_once(tmp_path):
    file = tmp_path / "journal.db"
    phone = lg.Liftgate.open(str(file), NOW)
    with pytest.raises(lg.LiftgateError.OpenElsewhere) as refused:
        lg.Liftgate.open(str(file), NOW)
    assert "close it there" in refused.value.reason
    phone.close_journal()
    assert lg.Liftgate.open(str(file), NOW).turn() == lg.Turn.PILOT


def test_a_file_that_is_no_database_is_left_alone(tmp_path):
    file = tmp_path / "journal.db"
    file.write_bytes(b"not a database, but long enough to look like something" * 40)
    with pytest.raises(lg.LiftgateError.NotReadable):
        lg.Liftgate.open(str(file), NOW)
    assert file.read_bytes().startswith(b"not a database")


def test_a_journal_from_a_newer_app_is_kept_and_the_page_says_so(tmp_path):
    file = tmp_path / "journal.db"
    lg.Liftgate.open(str(file), NOW).close_journal()
    with sqlite3.connect(file) as other:
        other.execute("PRAGMA user_version = 9999")
    other.close()
    before = file.read_bytes()
    screen = lg.Liftgate.open(str(file), NOW).pilot().screen(NOW)
    assert "written by a newer Liftgate" in screen.blocks[0].text
    assert file.read_bytes() == before


def test_a_database_of_another_program_is_refused(tmp_path):
    file = tmp_path / "journal.db"
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE theirs (a)")
    other.close()
    with pytest.raises(lg.LiftgateError.NotReadable):
        lg.Liftgate.open(str(file), NOW)
