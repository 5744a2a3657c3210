"""A whole build as a workbook: a sheet for each subject, numbers as numbers, nothing that runs."""

from __future__ import annotations

import pytest
from openpyxl import load_workbook

from fitwright.cli import main
from fitwright.formats.readings.xlsx_file import read_xlsx
from fitwright.formats.subjects import Told, subjects_of
from fitwright.records.kinds import Note, Person
from fitwright.wiring import open_shop
from tests.support.assembly_shop import CODE, Workshop

FORMULA = '=HYPERLINK("http://example.org")'


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A build closed step by step, by people with odd names."""
    found = tmp_path_factory.mktemp("subjects") / "shop"
    shop = open_shop(found)
    workshop = Workshop.open(shop)
    workshop.says(Note(text=FORMULA))
    workshop.story.closes()
    workshop.tell()
    workshop.says(Person(code="odd", name="+1+1"), shop=True)
    shop.close()
    return found


@pytest.fixture(scope="module")
def workbook(folder, tmp_path_factory):
    """What export writes."""
    file = tmp_path_factory.mktemp("out") / "small.xlsx"
    with pytest.raises(SystemExit) as left:
        main(["export", CODE, str(file), "--data", str(folder)])
    assert left.value.code == 0
    return file


def rows(workbook, name):
    sheet = load_workbook(workbook)[name]
    heads, *others = [[cell.value for cell in row] for row in sheet.iter_rows()]
    return [dict(zip(heads, row, strict=True)) for row in others]


def test_the_readings_stay_on_the_first_sheet_and_can_be_taken_in_again(workbook):
    assert load_workbook(workbook).sheetnames[0] == "readings"
    assert len(read_xlsx(workbook.read_bytes()).rows) == 3


def test_there_is_a_sheet_for_each_subject_with_as_many_cells_as_headings(folder):
    shop = open_shop(folder)
    told = Told(shop.bench(CODE), shop.assessment(CODE), shop.assembly(CODE), "mm")
    found = {each.name: each for each in subjects_of(told)}
    shop.close()
    wanted = {"open points", "fits", "parts", "tightening groups", "tightenings", "steps", "consumables"}
    assert wanted | {"eye checks", "instruments", "settings", "people", "decisions"} <= set(found)
    for each in found.values():
        assert {len(row) for row in each.rows} == {len(each.columns)}, each.name


def test_figures_are_numbers_in_their_unit(workbook):
    fit = next(row for row in rows(workbook, "fits") if row["fit"] == "clearance")
    assert fit["unit"] == "mm"
    assert fit["lower_limit"] == pytest.approx(0.040)
    assert fit["upper_limit"] == pytest.approx(0.060)
    assert fit["value"] == pytest.approx(0.050, abs=1e-3)
    passed = [row for row in rows(workbook, "tightenings") if row["group"] == "caps" and row["pass"] == 3]
    assert [row["torque"] for row in passed] == [52] * 4
    assert all(row["preload_low"] < row["preload"] < row["preload_high"] for row in passed)


def test_an_inch_shop_reads_its_own_units(folder, tmp_path):
    file = tmp_path / "inch.xlsx"
    with pytest.raises(SystemExit):
        main(["export", CODE, str(file), "--data", str(folder), "--units", "inch"])
    fit = next(row for row in rows(file, "fits") if row["fit"] == "clearance")
    assert fit["unit"] == "thou"
    assert fit["lower_limit"] == pytest.approx(0.040 / 0.0254, abs=1e-3)


def test_no_cell_is_a_formula(workbook):
    found = []
    for sheet in load_workbook(workbook):
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f", cell.value
                if isinstance(cell.value, str):
                    assert cell.value.lstrip(" ")[:1] not in set("=+@\t"), cell.value
                    found.append(cell.value)
    assert f"'{FORMULA}" in found
    assert "'+1+1" in found


def test_a_form_may_be_named_where_the_ending_does_not_say_it(folder, tmp_path):
    for form, begins in (("json", b"{"), ("csv", b"\xef\xbb\xbfpart"), ("xlsx", b"PK")):
        file = tmp_path / f"{form}.out"
        with pytest.raises(SystemExit) as left:
            main(["export", CODE, str(file), "--data", str(folder), "--format", form])
        assert left.value.code == 0
        assert file.read_bytes().startswith(begins)
