"""Tables of readings as files: what is recognised, what is refused, and nothing is ever run."""

from __future__ import annotations

import csv
import io
import zipfile
from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

from fitwright.formats.readings import table, xlsx_file
from fitwright.formats.readings.columns import COLUMNS
from fitwright.formats.readings.csv_file import read_csv, write_csv
from fitwright.formats.readings.guarded import DANGEROUS, guarded, is_number, unguarded
from fitwright.formats.readings.problems import TableError, TableProblemsError
from fitwright.formats.readings.xlsx_file import read_xlsx, write_xlsx

RECORD_COLUMNS = (
    "part, dimension, place, condition, value, unit, instrument, setting, part_temperature, measured_by, "
    "typed_by, taken_at, origin, note"
)


def row(**cells):
    return [cells.get(name, "") for name in COLUMNS]


def workbook(*lines):
    book = Workbook()
    for line in lines:
        book.active.append(line)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def test_the_columns_are_those_of_the_record():
    assert ", ".join(COLUMNS) == RECORD_COLUMNS


@pytest.mark.parametrize(
    "text",
    [
        "dimension,value,unit\nmain.1.journal,55.992,mm\n",
        "dimension;value;unit\nmain.1.journal;55.992;mm\n",
        "dimension\tvalue\tunit\nmain.1.journal\t55.992\tmm\n",
        'Dimension;"Value";Unit\r\nmain.1.journal;55.992;mm\r\n',
        "\n\ndimension,value,unit\n\nmain.1.journal,55.992,mm\n\n",
        " DIMENSION , value ,unit\nmain.1.journal , 55.992 , mm",
    ],
    ids=["commas", "semicolons", "tabs", "quoted", "empty lines", "spaces"],
)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_separators_and_marks_are_recognised(text, encoding):
    [found] = read_csv(text.encode(encoding)).rows
    assert (found["dimension"], found["value"], found["unit"]) == ("main.1.journal", "55.992", "mm")


def test_a_decimal_comma_needs_no_quotes_between_semicolons():
    [found] = read_csv(b"dimension;value\nmain.1.journal;55,992\n").rows
    assert found["value"] == "55,992"


def test_row_numbers_are_those_of_a_spreadsheet():
    text = 'dimension,value,note\na,1,"two\nlines"\n\nb,2,\n'
    assert [(each.number, each["dimension"]) for each in read_csv(text.encode()).rows] == [(2, "a"), (4, "b")]


@pytest.mark.parametrize(
    "content, said",
    [
        (b"", "is empty"),
        (b"\n\n", "is empty"),
        (b"dimension,value\nd\xe9j\xe0,1\n", "is not UTF-8 text at byte 17"),
        (b"dimension,value\n\x00,1\n", "zero bytes"),
        (b'dimension,value\n"a,1\n', "is no CSV after row 1"),
        (b"dimension,value\n" + b'"' + b"x" * 200_000 + b'",1\n', "is no CSV after row 1"),
    ],
    ids=["empty", "blank", "latin", "zero bytes", "open quotes", "endless cell"],
)
def test_what_is_no_table_is_said_in_one_sentence(content, said):
    with pytest.raises(TableError) as refused:
        read_csv(content, file="r.csv")
    assert str(refused.value).startswith("r.csv ")
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_all_problems_of_the_headings_at_once():
    with pytest.raises(TableProblemsError) as refused:
        read_csv(b"dimensoin,dimension,dimension,colour\n", file="r.csv")
    assert [(each.column, each.what) for each in refused.value.problems] == [
        ("dimensoin", "no such column"),
        ("dimension", "named twice"),
        ("colour", "no such column"),
        ("value", "this column is missing"),
    ]
    assert "write dimension" in str(refused.value)


def test_too_many_cells_and_endless_ones_are_problems_of_their_row():
    content = f"dimension,value\na,1,2\nb,{'9' * 5000}\n".encode()
    assert [(each.row, each.what) for each in read_csv(content).problems] == [
        (2, "has 3 cells for 2 columns"),
        (3, "has 5000 characters"),
    ]


def test_too_many_rows_are_refused(monkeypatch):
    monkeypatch.setattr(table, "MOST_ROWS", 3)
    with pytest.raises(TableError, match="more than 3 rows"):
        read_csv(b"dimension,value\n" + b"a,1\n" * 4)


def test_a_large_file_is_not_even_opened(tmp_path, monkeypatch):
    monkeypatch.setattr(table, "LARGEST_FILE", 10)
    (tmp_path / "r.csv").write_text("dimension,value\n")
    with pytest.raises(TableError, match="divide it"):
        table.file_content(tmp_path / "r.csv")
    with pytest.raises(TableError, match="is not there"):
        table.file_content(tmp_path / "s.csv")


# What a spreadsheet could run.

dangerous = st.builds(
    lambda first, rest: first + rest, st.sampled_from(sorted(DANGEROUS)), st.text(max_size=20)
)


@given(dangerous)
def test_no_text_is_left_that_could_be_run(text):
    written = guarded(text)
    assert is_number(written) or written[0] == "'"
    assert unguarded(written) == text


@given(st.text(max_size=30))
def test_what_was_guarded_is_read_back_as_it_was(text):
    assert unguarded(guarded(text)) == text


@pytest.mark.parametrize("number", ["-0.012", "60.511", "+3", "0"])
def test_numbers_stay_numbers(number):
    assert guarded(number) == number


ATTACKS = ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1+1", " =1+1", "\r=1", "\uff1d1+1"]


@pytest.mark.parametrize("note", ATTACKS)
def test_no_cell_of_a_written_csv_begins_a_formula(note):
    out = io.StringIO(newline="")
    write_csv([row(dimension="d", value="-0.012", note=note)], out)
    cells = list(csv.reader(io.StringIO(out.getvalue(), newline="")))[1]
    assert cells[COLUMNS.index("value")] == "-0.012"
    assert cells[COLUMNS.index("note")] == f"'{note}"
    [found] = read_csv(out.getvalue().encode()).rows
    assert found["note"] == note.strip() or found["note"] == note


@pytest.mark.parametrize("note", [*ATTACKS, "bell \x07"])
def test_no_cell_of_a_written_workbook_is_a_formula(note, tmp_path):
    write_xlsx([row(dimension="d", value="-0.012", note=note)], tmp_path / "r.xlsx")
    cells = load_workbook(tmp_path / "r.xlsx").active[2]
    assert [cell.data_type for cell in cells if cell.value is not None] == ["s", "n", "s"]
    assert not str(cells[-1].value).startswith(tuple("=+-@"))
    [found] = read_xlsx((tmp_path / "r.xlsx").read_bytes()).rows
    assert found["value"] == "-0.012"


# Workbooks.


def test_cell_types_become_the_text_that_was_meant():
    book = Workbook()
    sheet = book.active
    sheet.append(["dimension", "value", "unit", "taken_at", "note", "place"])
    sheet.append(["a", 56, "mm", date(2031, 5, 4), True, 0])
    sheet.append(["b", 60.51, "mm", datetime(2031, 5, 4, 9, 30), None, "front/0"])  # noqa: DTZ001  (as workbooks have it)
    sheet.append(["c", "60,511", "mm", "2031-05-04", "x", "front/0"])
    sheet.append(["d", 1e-05, "mm", None, None, None])
    sheet["B2"].number_format = "0.00"
    sheet["B3"].number_format = "0.000"
    out = io.BytesIO()
    book.save(out)
    found = read_xlsx(out.getvalue()).rows
    assert [each["value"] for each in found] == ["56.00", "60.510", "60,511", "0.00001"]
    assert [each["taken_at"] for each in found] == ["2031-05-04", "2031-05-04T09:30:00", "2031-05-04", ""]
    assert [each["place"] for each in found] == ["0", "front/0", "front/0", ""]
    assert found[0]["note"] == "yes"


def test_a_format_that_would_hide_digits_does_not():
    book = Workbook()
    book.active.append(["dimension", "value"])
    book.active.append(["a", 60.5115])
    book.active["B2"].number_format = "0.00"
    out = io.BytesIO()
    book.save(out)
    assert read_xlsx(out.getvalue()).rows[0]["value"] == "60.5115"


@given(st.integers(-(10**7), 10**7), st.integers(0, 6))
def test_numbers_go_through_a_workbook_digit_by_digit(steps, decimals):
    text = f"{steps / 10**decimals:.{decimals}f}"
    cell = xlsx_file._written(lambda value: type("Cell", (), {"value": value, "number_format": ""})(), text)
    if text.startswith("-") and not text.strip("-0."):
        assert xlsx_file._text(cell).lstrip("'-") == text.lstrip("-")
    else:
        assert xlsx_file._text(cell) == text


def test_a_sheet_is_chosen_by_its_name():
    book = Workbook()
    book.active.append(["nothing"])
    second = book.create_sheet("bench")
    second.append(["dimension", "value"])
    second.append(["a", 1])
    out = io.BytesIO()
    book.save(out)
    assert len(read_xlsx(out.getvalue(), sheet="bench").rows) == 1
    with pytest.raises(TableError, match="name one of: Sheet, bench"):
        read_xlsx(out.getvalue(), sheet="paper")


def repacked(content, name, body, *, compression=zipfile.ZIP_DEFLATED):
    """A workbook with one of its members replaced or added."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", compression) as new:
        for each in old.namelist():
            if each != name:
                new.writestr(each, old.read(each))
        new.writestr(name, body)
    return out.getvalue()


GOOD = workbook(["dimension", "value"], ["a", 1])
SHEET = "xl/worksheets/sheet1.xml"
LAUGHS = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>'
OUTSIDE = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]><x>&a;</x>'


@pytest.mark.parametrize(
    "content, said",
    [
        pytest.param(repacked(GOOD, SHEET, LAUGHS), "document type", id="entities"),
        pytest.param(repacked(GOOD, SHEET, OUTSIDE), "document type", id="outside entity"),
        pytest.param(
            repacked(GOOD, SHEET, LAUGHS.encode("utf-16")), "document type", id="entities in UTF-16"
        ),
        pytest.param(repacked(GOOD, SHEET, " " * 70_000_000), "would unpack", id="bomb"),
        pytest.param(repacked(GOOD, SHEET, "<x"), "no XLSX workbook", id="no XML"),
        pytest.param(repacked(GOOD, "xl/workbook.xml", "<x/>"), "no XLSX workbook", id="no sheets"),
        pytest.param(GOOD[: len(GOOD) // 2], "no XLSX workbook", id="cut off"),
        pytest.param(b"PK\x03\x04" + bytes(100), "no XLSX workbook", id="no ZIP"),
        pytest.param(b"\xd0\xcf\x11\xe0" + bytes(600), "no XLSX workbook", id="old or locked"),
        pytest.param(b"dimension,value\n", "no XLSX workbook", id="CSV under another name"),
    ],
)
def test_a_hostile_or_broken_workbook_is_refused_in_one_sentence(content, said):
    with pytest.raises(TableError) as refused:
        read_xlsx(content, file="r.xlsx")
    assert said in str(refused.value)
    assert str(refused.value).startswith("r.xlsx ")
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("place", ['r="99999999999"', 'r="2000000"'])
def test_a_row_that_gives_itself_a_huge_number_fills_nothing_in_and_is_not_passed_over(place):
    with zipfile.ZipFile(io.BytesIO(GOOD)) as archive:
        sheet = archive.read(SHEET).decode()
    changed = sheet.replace('<row r="2"', f"<row {place}").replace('r="A2" ', "").replace('r="B2" ', "")
    assert changed != sheet
    with pytest.raises(TableError, match="has a row 1048576 or beyond"):
        read_xlsx(repacked(GOOD, SHEET, changed))


def test_the_same_workbook_unharmed_is_read():
    assert len(read_xlsx(GOOD).rows) == 1
    assert len(read_xlsx(repacked(GOOD, "docProps/note.txt", "a note")).rows) == 1


def test_a_sheet_under_another_name_is_looked_at_too():
    """What a member is called says nothing of what is read as a sheet."""
    with pytest.raises(TableError, match="document type in xl/media/picture"):
        read_xlsx(repacked(GOOD, "xl/media/picture.png", LAUGHS))
