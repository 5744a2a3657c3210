"""Readings from a table into a build: all problems at once, questions listed, nothing twice."""

from __future__ import annotations

import io

import pytest

from fitwright.assess.results import State
from fitwright.formats.readings.columns import COLUMNS
from fitwright.formats.readings.csv_file import read_csv, write_csv
from fitwright.formats.readings.exporting import rows_of
from fitwright.formats.readings.importing import Import
from fitwright.records import kinds
from tests.support.bench import trial_shop

GOOD = "dimension,value,unit,instrument,measured_by\nshim.1.thickness,2.400,mm,M1,builder\n"


@pytest.fixture
def shop(tmp_path):
    opened = trial_shop(tmp_path / "shop")
    yield opened
    opened.close()


def ready(shop, text, **options):
    return Import(shop.bench("trial"), read_csv(text.encode(), file="r.csv"), **options)


def take_in(shop, text, *, leave_out=frozenset(), **options):
    for batch in ready(shop, text, **options).batches(leave_out=leave_out):
        shop.write(batch)


def bodies(shop):
    return [entry.body for entry in shop.record.entries() if entry.kind == "reading"]


def test_a_row_becomes_a_reading_from_a_file(shop):
    take_in(shop, GOOD)
    [body] = bodies(shop)
    assert (body["dimension"], body["place"], body["origin"]) == ("shim.1.thickness", "whole", "file")
    assert body["members"] == {"shim.1": "shim.1"}
    assert body["sitting"] == "S1", "the only sitting of this person"
    assert body["observation"]["value"]["typed"] == "2.400 mm"


def test_the_same_file_twice_changes_nothing(shop):
    take_in(shop, GOOD)
    head = shop.record.head()
    again = ready(shop, GOOD)
    assert (again.check().new, again.check().already) == (0, 1)
    take_in(shop, GOOD)
    assert shop.record.head() == head


def test_an_import_that_was_cut_off_goes_on(shop):
    rows = "".join(f"shim.{number}.thickness,2.400,mm,M1,builder\n" for number in range(1, 7))
    text = GOOD.splitlines(keepends=True)[0] + rows
    entries = [entry for batch in ready(shop, text).batches(leave_out=set()) for entry in batch]
    shop.write(entries[:2])
    found = ready(shop, text).check()
    assert (found.new, found.already, found.questions) == (4, 2, [])
    take_in(shop, text)
    assert len(bodies(shop)) == 6


def test_what_another_file_says_again_is_a_question(shop):
    take_in(shop, GOOD)
    found = ready(shop, GOOD + "shim.2.thickness,2.500,mm,M1,builder\n").check()
    assert (found.new, found.already) == (2, 0)
    assert [(each.row, each.question.key.partition(":")[0]) for each in found.questions] == [(2, "again")]


BLADES = (
    "dimension,value,unit,instrument\n"
    "pump.shaft_gap,F2:0.06 goes,,\n"
    "pump.shaft_gap,0.07 does not go,,F2\n"
    'pump.shaft_gap,"F2:0,05+F2:0,03 drags",,\n'
)


def test_blades_stand_in_the_value(shop):
    take_in(shop, BLADES)
    assert [(body["observation"]["blades"], body["observation"]["answer"]) for body in bodies(shop)] == [
        (["F2:0.06"], "goes"),
        (["F2:0.07"], "does not go"),
        (["F2:0.05", "F2:0.03"], "drags"),
    ]


@pytest.mark.parametrize("value", ["5.612", '"5,612"', "0.2209448818897638 in"])
def test_points_commas_and_units_in_the_value(shop, value):
    take_in(shop, f"dimension,value\npump.width,{value}\n")
    assert bodies(shop)[0]["observation"]["value"]["si"] == pytest.approx(0.005612, rel=1e-9)


BAD = {
    "dimension": ("shim.9.thickness,,2.4,mm,,,,,,,", "dimension", "name one of: shim."),
    "no dimension": (",,2.4,mm,,,,,,,", "dimension", "is empty"),
    "place": ("shim.1.thickness,left,2.4,mm,,,,,,,", "place", "whole"),
    "condition": ("shim.1.thickness,,2.4,mm,,,,,,,hot", "condition", "write none"),
    "value": ("shim.1.thickness,,two,mm,,,,,,,", "value", "does not start with a number"),
    "grouped": ('shim.1.thickness,,"1,234.5",mm,,,,,,,', "value", "digit groups"),
    "no value": ("shim.1.thickness,,,mm,,,,,,,", "value", ""),
    "unit": ("shim.1.thickness,,2.4,furlong,,,,,,,", "value", "unknown unit"),
    "kind of unit": ("shim.1.thickness,,2.4,bar,,,,,,,", "value", "bar"),
    "instrument": ("shim.1.thickness,,2.4,mm,M9,,,,,,", "instrument", "name one of: M1"),
    "setting": ("shim.1.thickness,,2.4,mm,M1,Z1,,,,,", "setting", 'no setting "Z1"'),
    "temperature": ("shim.1.thickness,,2.4,mm,M1,,warm,,,,", "part_temperature", "number"),
    "person": ("shim.1.thickness,,2.4,mm,M1,,,nobody,,,", "measured_by", "name one of: builder"),
    "time": ("shim.1.thickness,,2.4,mm,M1,,,,yesterday,,", "taken_at", "2031-05-04"),
    "origin": ("shim.1.thickness,,2.4,mm,M1,,,,,rumour,", "origin", "bench, paper, told or file"),
    "blade": ("pump.shaft_gap,,F2:0.77 goes,,,,,,,,", "value", "No blade"),
    "blade with unit": ("pump.shaft_gap,,F2:0.06 goes,mm,,,,,,,", "unit", "leave it empty"),
}
HEADINGS = (
    "dimension,place,value,unit,instrument,setting,part_temperature,measured_by,taken_at,origin,condition"
)


@pytest.mark.parametrize("case", BAD)
def test_each_problem_names_its_row_its_column_and_the_mend(shop, case):
    line, column, said = BAD[case]
    [problem] = ready(shop, f"{HEADINGS}\n{line}\n").check().problems
    assert (problem.row, problem.column) == (2, column)
    assert said in str(problem)
    assert str(problem).startswith(f"r.csv, row 2, {column}: ")


def test_all_problems_of_a_file_come_at_once(shop):
    good = "shim.1.thickness,,2.400,mm,M1,,,builder,,,"
    text = "\n".join([HEADINGS, *(line for line, _, _ in BAD.values()), good])
    found = ready(shop, text).check()
    assert sorted(found.bad_rows) == list(range(2, 2 + len(BAD)))
    assert [each.row for each in found.problems] == sorted(each.row for each in found.problems)


def test_several_problems_of_one_row_come_at_once(shop):
    line = "shim.9.thickness,,2.4,mm,M9,Z1,warm,nobody,yesterday,rumour,"
    columns = {problem.column for problem in ready(shop, f"{HEADINGS}\n{line}\n").check().problems}
    assert columns == {
        "dimension",
        "instrument",
        "setting",
        "part_temperature",
        "measured_by",
        "taken_at",
        "origin",
    }


SLIPS = "dimension,value,unit,instrument\npump.width,56.00,mm,M1\nshim.1.thickness,2.400,mm,M1\n"


def test_slips_are_listed_as_questions(shop):
    found = ready(shop, SLIPS).check()
    assert found.asked_rows == {2}
    assert "r.csv, row 2, pump.width: 56.00 mm would be" in str(found.questions[0])


def test_kept_slips_keep_their_questions_too(shop):
    take_in(shop, SLIPS)
    answers = [entry.body for entry in shop.record.entries() if entry.kind == "question answered"]
    assert [(each["answer"], each["typed"]) for each in answers] == [("keep", "56.00 mm")] * 2


def test_rows_left_out_are_not_taken(shop):
    take_in(shop, SLIPS, leave_out={2})
    assert [body["dimension"] for body in bodies(shop)] == ["shim.1.thickness"]


def test_a_part_that_is_not_in_place_carries_its_reading_by_itself(shop):
    shop.write([shop.entry(kinds.Part(code="spare", title="Spare shim"), build="trial")])
    take_in(shop, "part,dimension,value\nspare,shim.1.thickness,2.500\nshim.1,shim.1.thickness,2.400\n")
    spare, fitted = bodies(shop)
    assert (spare["dimension"], spare["members"]) == (None, {"": "spare"})
    assert (fitted["dimension"], fitted["members"]) == ("shim.1.thickness", {"shim.1": "shim.1"})


def test_an_unknown_part_is_a_problem(shop):
    [problem] = ready(shop, "part,dimension,value\nshim-77,shim.1.thickness,2.4\n").check().problems
    assert (problem.column, problem.what) == ("part", 'no part "shim-77" in this build')


def test_temperatures_are_in_celsius_or_say_their_unit(shop):
    lines = [f"shim.1.thickness,2.400,{temperature}\n" for temperature in ("25", "25,0", "77 degF")]
    take_in(
        shop,
        "dimension;value;part_temperature\n" + "".join(lines).replace("2.400,", "2.400;").replace("s,", "s;"),
    )
    assert [body["part_temperature"] for body in bodies(shop)] == pytest.approx([298.15] * 3)


def test_a_sitting_is_found_by_person_and_time(shop):
    second = shop.entry(kinds.Sitting(code="S2", measured_by="builder"), build="trial")
    shop.write([second])
    lines = [
        "shim.1.thickness,2.400,2999-01-01T00:00:00Z",
        "shim.2.thickness,2.400,1999-01-01",
        "shim.3.thickness,2.400,",
    ]
    text = "dimension,value,taken_at\n" + "\n".join(lines)
    assert ready(shop, text).check().outside_sittings == 2
    take_in(shop, text)
    assert [body["sitting"] for body in bodies(shop)] == ["S2", None, None]


def test_a_sitting_can_be_named(shop):
    take_in(shop, GOOD, sitting="S1")
    assert bodies(shop)[0]["sitting"] == "S1"


def test_that_it_was_on_paper_stays_known(shop):
    take_in(shop, "dimension,value,origin,note\nshim.1.thickness,2.4,paper,page 12\n")
    assert (bodies(shop)[0]["origin"], bodies(shop)[0]["note"]) == (
        "file",
        "page 12; origin in the file: paper",
    )


def test_what_is_exported_is_what_was_taken(shop):
    take_in(shop, BLADES)
    take_in(shop, "dimension,value,unit,note\npump.width,5.612,mm,=1+1\npump.cover_gap,0.5,thou,\n")
    out = io.StringIO(newline="")
    assert write_csv(rows_of(shop.bench("trial"), State.CURRENT), out) == 5
    rows = read_csv(out.getvalue().encode()).rows
    assert [row["value"] for row in rows][:2] == ["F2:0.06 goes", "F2:0.07 does not go"]
    assert [(row["value"], row["unit"], row["note"]) for row in rows[3:]] == [
        ("5.612", "mm", "=1+1"),
        ("0.5", "thou", ""),
    ]
    assert all(len(row.cells) == len(COLUMNS) for row in rows)
