# ruff: noqa: E501 - one row for each slip
from __future__ import annotations

import json
import time

import pytest

from fitwright.formats.sheet import SheetProblem, SheetProblemsError, check_sheet, read_sheet
from fitwright.formats.sheet.upgrade import STEPS, upgraded, version_problem


def problems_of(text: str) -> list[SheetProblem]:
    return list(check_sheet(text, name="small.toml")[1])


def line_of(text: str, part: str) -> int:
    assert text.count(part) >= 1, part
    return text.count("\n", 0, text.index(part)) + 1


def changed(text: str, old: str, new: str) -> str:
    assert old in text, old
    return text.replace(old, new, 1)


def test_an_unknown_key_names_its_line_and_what_was_meant(small_text: str) -> None:
    text = changed(small_text, 'instrument = "burette"', 'instrumnt = "burette"')
    (problem,) = problems_of(text)
    assert str(problem) == (
        f"small.toml:{line_of(text, 'instrumnt')}:1: dimension chamber.volume, instrumnt: "
        'unknown key "instrumnt"; did you mean "instrument"?'
    )


def test_a_number_without_a_unit_says_what_to_write(small_text: str) -> None:
    text = changed(small_text, 'nominal = "55.992 mm"', "nominal = 55.992")
    (problem,) = problems_of(text)
    assert str(problem) == (
        f"small.toml:{line_of(text, 'nominal = 55.992')}:11: dimension main.{{1..2}}.journal, nominal: "
        'a number without a unit; write "55.992 mm"'
    )


def test_many_problems_are_told_at_once_in_the_order_of_the_file(small_text: str) -> None:
    text = small_text
    for old, new in (
        ('revision = "A"', "revision = 7"),
        ('stroke = "82.00 mm"', 'stroke = "82.00"'),
        ('kind = "engine maker"', 'kind = "maker"'),
        ('material = "steel"', 'material = "steal"'),
        ('kind = "bare"', 'kind = "baer"'),
        ('sense = "volume"', 'sense = "volum"'),
        ('"main.{}.fitted_bore - main.{}.journal"', '"main.{}.fitted_bore main.{}.journal"'),
        ('lower = "0.040 mm", upper = "0.075 mm"', 'lower = "0.075 mm", upper = "0.040 mm"'),
        ("wanted = false", 'wanted = "no"'),
    ):
        text = changed(text, old, new)
    problems = problems_of(text)
    assert len(problems) == 9
    assert [problem.line for problem in problems] == sorted(problem.line for problem in problems)
    with pytest.raises(SheetProblemsError) as caught:
        read_sheet(text)
    assert str(caught.value).count("\n") == 8


def test_what_is_wrong_with_an_entry_is_not_told_again_by_those_that_name_it(small_text: str) -> None:
    text = changed(small_text, 'title = "Chamber volume"\npart', 'title = "Chamber volume"\nprat')
    assert [problem.what for problem in problems_of(text)] == ['unknown key "prat"']
    text = changed(small_text, '[sources.manual]\ntitle = "Fell works manual"', "[sources.manual]")
    assert [problem.what for problem in problems_of(text)] == ['"title" is missing']


def test_an_id_given_twice_names_both_lines(small_text: str) -> None:
    again = '[parts."main.{2..3}.shell_upper"]\ntitle = "Main {} shell"\nmaterial = "steel"\n\n[parts.gasket]'
    text = changed(small_text, "[parts.gasket]", again)
    (problem,) = problems_of(text)
    assert problem.line == line_of(text, '"main.{2..3}')
    first = line_of(text, '[parts."main.{1..2}')
    assert problem.what == f"main.2.shell_upper is given twice; line {first} gives it already"


def test_what_all_members_of_a_family_share_is_told_once(small_text: str) -> None:
    text = changed(small_text, 'part = "seat.{}.{}"', 'part = "seet.{}.{}"')
    (problem,) = problems_of(text)
    assert problem.what == 'there is no part "seet.inlet.a" (and so for 3 more of this family)'
    assert problem.accepted == 'did you mean "seat.inlet.a"?'


@pytest.mark.parametrize(
    "text, line, column, what",
    [
        ("a = \nb = 1", 1, 5, "no value that TOML knows"),
        ("a = 1\na = 2", 2, 6, "a key is given twice"),
        ("a = [1,\n2", 2, 2, "unclosed array"),
        ("x = 'unclosed", 1, 14, 'expected "\'"'),
        ("[" * 3000, 1, 3, "invalid initial character"),
        ("a = " + "[" * 30000, 1, 1, "nested too deeply"),
        ("a = 1\n\ud800", 2, 1, "a character that cannot be stored"),
    ],
)
def test_a_text_that_is_no_toml_says_where(text: str, line: int, column: int, what: str) -> None:
    (problem,) = problems_of(text)
    assert (problem.line, problem.column) == (line, column)
    assert what in problem.what


def test_a_newer_format_is_one_clear_sentence(small_text: str) -> None:
    text = changed(small_text, "format = 1", "format = 3").replace("mains = 2", "bearings_of_crank = 2")
    (problem,) = problems_of(text)
    assert str(problem) == (
        "small.toml:3:10: format: this sheet is written in format 3, and this fitwright reads up to "
        "format 1; install a newer fitwright"
    )


@pytest.mark.parametrize("value", ["0", "true", '"1"', "1.0"])
def test_no_other_format_is_taken_for_one(small_text: str, value: str) -> None:
    (problem,) = problems_of(changed(small_text, "format = 1", f"format = {value}"))
    assert problem.what == "this is no format version"


def test_older_formats_rise_one_step_at_a_time() -> None:
    steps = {
        1: lambda document: {**document, "told": [*document.get("told", []), 1]},
        2: lambda document: {**document, "told": [*document["told"], 2]},
    }
    assert upgraded({"format": 1}, steps, newest=3) == {"format": 3, "told": [1, 2]}
    assert upgraded({"format": 2, "told": []}, steps, newest=3) == {"format": 3, "told": [2]}
    assert version_problem({"format": 2}, newest=3) is None
    assert dict(STEPS) == {}, "a second format version has come: its step needs a test with an old file"


CASES = [
    # form
    ("mains = 2", "mains = 2.5", "a number where a whole number belongs", "write a whole number"),
    ("mains = 2", 'mains = "2"', "text where a whole number belongs", "without quotes"),
    ("cylinders = 1", "cylinders = 0", "0 is out of range", "write 1 or more"),
    ('bore = "88.00 mm"', "bore = [88]", "a list where an amount belongs", '"67.08 mm"'),
    ('bore = "88.00 mm"', 'bore = "-88.00 mm"', "is not above zero", "what it really is"),
    ('bore = "88.00 mm"', 'bore = "88.00 bar"', "is a pressure where a length is wanted", "mm"),
    ("poisson_ratio = 0.26", "poisson_ratio = nan", "", ""),
    ("one_time_use = true", 'one_time_use = "yes"', "text where true or false belongs", "without quotes"),
    ('plausible = ["55.9 mm", "56.1 mm"]', 'plausible = ["55.9 mm"]', "a list of 1", "a list of 2"),
    ("[parts.block]", "[parts.Block]", '"Block" is no id', "lower case"),
    ("[conditions.bare]", '[conditions."bare.{1..2}"]', "braces in this key", "write one id"),
    ("[parts.crank]", "[parts.crank.shaft]", "the id crank.shaft has dots", '[parts."crank.shaft"]'),
    ('[parts."pump.{body,outer', '[parts."pump.{body,,outer', "names no members", "{inlet,exhaust}"),
    ('title = "Lash {} {}"', 'title = "Lash {} {} {}"', "more values than the key's 2", "up to 2 times {}"),
    ('title = "Stroke"', 'title = "Stroke {}"', "the key above has no braces", "the name itself"),
    ('[engine.facts]\n"Oil" = "10W', '[engine.facts]\n"Oil" = 5\n"Other" = "10W', "a number where text", '"5"'),
    ('"+ 84 mm pump.body"', '"84 mm pump.body"', "is no length of a part", "+ 84 mm pump.body"),
    ('default = "90 degC"', 'default = "90"', "a number without a unit", '"90 degC"'),
    # references
    ('condition = "bare"', 'condition = "bear"', 'no condition "bear"', 'did you mean "bare"?'),
    ('material = "cast_iron"', 'material = "wood"', 'no material "wood"', "one of the 3 ids"),
    ('source = "thumb"', 'source = "thum"', 'no source "thum"', '"thumb"'),
    ('block = "95 degC"', 'blok = "95 degC"', 'no part "blok"', '"block"'),
    ('temperature_case = "hot_idle"', 'temperature_case = "hot"', 'no temperature case "hot"', ""),
    ('through = ["pump.body", "crank"]', 'through = ["pump.body", "crnk"]', 'part or dimension "crnk"', "crank"),
    ('through = ["pump.body", "crank"]', 'through = ["pump.body", "pump.outer_gap"]', "on no single part", ""),
    ('hub = "head"', 'hub = "hed"', 'no part "hed"', '"head"'),
    ('chamber_volume = "chamber.volume"', 'chamber_volume = "chamber"', 'no dimension "chamber"', ""),
    ('clearance = "main.1.running', 'clearance = "main.9.running', 'no fit "main.9.running', "running_clearance"),
    ("- 84 mm pump.outer_rotor", "- 84 mm pump.rotor", 'no part "pump.rotor"', "outer_rotor"),
    ('    "pump.outer_gap",', '    "pump.outer",', 'no dimension "pump.outer"', ""),
    # dimensions
    ('title = "Stroke"\npart = "crank"', 'title = "Stroke"', "neither part nor through", 'part = "..."'),
    ('through = ["head"]', 'through = ["head"]\npart = "head"', "part and through are both", "one of them"),
    ('places = ["{1..3}"]', 'places = ["1", "1"]', 'the place "1" is given 2 times', "once"),
    ('places = ["{1..3}"]', 'places = ["a"]\nplanes = ["b", "c"]', "places are given beside planes", ""),
    ('plausible = ["55.9 mm", "56.1 mm"]', 'plausible = ["56.1 mm", "55.9 mm"]', "is not below", "smallest"),
    ('plausible = ["55.9 mm", "56.1 mm"]', 'plausible = ["5 mm", "6 mm"]', "outside what is called", "5 mm to"),
    ('instrument = "burette"', 'instrument = "burete"', "no kind of instrument", '"burette"'),
    ('title = "Counterbore {} {}"', 'title = "C"\nfeature = "hole"', 'has the feature "hole" already', ""),
    # limits
    ('lower = "0.045 mm", upper = "0.065 mm", governs', "governs", "a limit without a bound", "lower, upper"),
    ('applies_to = "used" },', "governs = true },", "limit 1 governs already, for new parts", "one of them"),
    ('lower = "0.06 mm"', 'governs = true, lower = "0.06 mm"', "a rule of thumb cannot govern", "adopts"),
    # fits
    ('fitted = "valve.inlet.{}.lash"', "", "no way to this gap", "by_parts or fitted"),
    ('governing_route = "fitted"', "", "nothing says which governs", "governing_route"),
    ('fitted = "2 * pump.outer_gap"', 'fitted = "pump.outer_gap"', "counts on both sides", "2 * pump.outer_gap"),
    ('"cylinder.1.deck + gasket.thickness"', '"cylinder.1.deck + chamber.volume"', "stated as volume", "one kind"),
    ('form_of = "main.{}.journal"', 'form_of = "crank.stroke"', "in one place only", "planes or angles"),
    ('form_of = "main.{}.journal"', 'form_of = "pump.pocket_depth"', "in one plane only", "two planes"),
    ('form_of = "main.{}.journal"', "", "a taper without form_of", "form_of"),
    ('centring = { gaps = "pump.spigot_gap", clearance = "main.1.running_clearance" }', "",
     "a centring without centring", "write centring"),
    ('kind = "squish"', 'kind = "squish"\nform_of = "cylinder.1.bore"', "form_of for the kind squish", "taper"),
    ('kind = "interference"', 'kind = "gap"', "press for the kind gap", "interference"),
    ('shaft_inner_diameter = "28 mm"', 'shaft_inner_diameter = "52 mm"', "not below the outside", ""),
    ('stroke = "crank.stroke"', 'stroke = "chamber.volume"', "stated as volume", "axial"),
    ('"{top,right,bottom,left}@{0,180}"', '"{top,right}@0"', "fewer than three angles", "three"),
    ('"{top,right,bottom,left}@{0,180}"', '"{top,right,left}"', "says no gap and crank angle", "top@0"),
    ("[fits.pump_offset]", '[fits."pump.spigot_gap"]', "is a dimension too", "an id of its own"),
    # stations and engine
    ('    "pump.outer_gap",\n', "", 'the order leaves out "pump.outer_gap"', "put it in"),
    ('    "pump.outer_gap",', '    "pump.outer_gap",\n    "pump.outer_gap",', "stands twice", "once"),
    ('    "pump.outer_gap",', '    "pump.outer_gap",\n    "crank.stroke",', "belongs to the station mains", ""),
    ('id = "pump.scored"', 'id = "mains.turns_by_hand"', "given already, in mains", "another id"),
    ('arrangement = "single"', 'arrangement = "vee"', "a vee without its bank angle", '"90 deg"'),
    ('arrangement = "single"', 'arrangement = "twin"', "1 cylinders for the arrangement twin", "write 2"),
    ("mains = 2", 'mains = 2\nbank_angle = "90 deg"', "a bank angle for the arrangement single", "leave"),
    ('firing_order = "1"', 'firing_order = "one"', "is no firing order", "1-3-4-2"),
    ('firing_order = "1"', 'firing_order = "1-2"', "each of the 1 cylinders once", ""),
    ("mains = 2", "mains = 2\npump_stages = 2", "scavenge stages without a dry sump", "dry sump"),
]  # fmt: skip


@pytest.mark.parametrize("old, new, what, accepted", CASES, ids=[case[1][:40] for case in CASES])
def test_each_slip_has_its_sentence(small_text: str, old: str, new: str, what: str, accepted: str) -> None:
    problems = problems_of(changed(small_text, old, new))
    found = [problem for problem in problems if what in problem.what and accepted in problem.accepted]
    for problem in problems:
        print(problem)
    assert len(found) == 1


def test_two_limits_of_which_none_governs_are_asked_about(small_text: str) -> None:
    text = changed(small_text, ", governs = true },\n    { source", " },\n    { source")
    text = changed(text, ', applies_to = "used" }', " }")
    (problem,) = problems_of(text)
    assert problem.what.startswith("limit 1 is for new parts too, and neither governs")


@pytest.mark.parametrize(
    "old, new",
    [
        ('upper = "0.065 mm", governs = true', 'upper = "0.065 mm"'),
        ('upper = "0.090 mm", applies_to = "used"', 'upper = "0.09 mm"'),
    ],
)
def test_a_limit_alone_needs_no_flag_and_a_flagged_one_leaves_no_doubt(
    small_text: str, old: str, new: str
) -> None:
    assert problems_of(changed(small_text, old, new)) == []


def test_a_critical_fit_with_rules_of_thumb_only_is_sound(small_text: str) -> None:
    text = changed(small_text, 'kind = "interference"', 'kind = "interference"\nclass = "critical"')
    assert problems_of(text) == []


def test_radial_sizes_of_a_diametral_chain_may_stand_in_pairs(small_text: str) -> None:
    """Upper and lower shell each once, or one of them twice; not one of them once."""
    text = changed(small_text, 'shell_{}"\nsense = "linear"', 'shell_{}"\nsense = "radial"')
    assert problems_of(text) == []
    twice = changed(text, "shell_upper.wall - main.{}.shell_lower.wall", "shell_upper.wall")
    (problem,) = problems_of(twice)
    assert "main.1.shell_upper.wall is radial and the fit diametral" in problem.what
    assert problems_of(changed(twice, "- main.{}.shell_upper.wall", "- 2 * main.{}.shell_upper.wall")) == []


def test_half_a_diameter_counts_in_a_radial_fit(small_text: str) -> None:
    radial = changed(
        small_text, 'kind = "running clearance"\nsense = "diametral"', 'kind = "gap"\nsense = "radial"'
    )
    problems = problems_of(radial)
    assert any("half of it counts" in problem.what for problem in problems)
    assert all(problem.accepted.startswith("write 0.5 * main.1") for problem in problems)


def test_the_caller_names_the_file() -> None:
    assert str(check_sheet("", name="my engine.toml")[1][0]).startswith("my engine.toml:1:1: ")


def test_a_problem_is_plain_data_for_another_program() -> None:
    assert json.loads(json.dumps(check_sheet("format = 9")[1][0].as_data())) == {
        "file": "sheet.toml",
        "line": 1,
        "column": 10,
        "path": ["format"],
        "place": "format",
        "what": "this sheet is written in format 9, and this fitwright reads up to format 1",
        "accepted": "install a newer fitwright",
    }


LIMIT = '{ source = "manual", lower = "1 mm" },'
HOSTILE = {
    "brackets nested too deeply": lambda text: f"{text}\nx = {'[' * 300}{']' * 300}\n",
    "brackets nested too deeply; write it flatter": lambda text: f"{text}\nx = {'{a=' * 300}1{'}' * 300}\n",
    "tables nested too deeply": lambda text: f"{text}\n[{'.'.join('a' * 5000)}]\n",
    "put ids with dots in quotes": lambda text: f"{text}\n{'.'.join('a' * 20_000)} = 1\n",
    "write at most 4000000": lambda text: f"{text}\n# {'x' * 4_000_000}\n",
    "a text of 5000 characters": lambda text: changed(text, 'title = "Block"', f'title = "{"x" * 5000}"'),
    "nobody can see (U+001B)": lambda text: changed(text, 'title = "Block"', 'title = "B\\u001b[2J"'),
    "nobody can see (U+202E)": lambda text: changed(text, 'title = "Block"', 'title = "B\u202elock"'),
    "write a list of 60": lambda text: changed(text, "limits = [", f"limits = [{LIMIT * 3000}"),
}


@pytest.mark.parametrize("says", HOSTILE)
def test_what_would_keep_a_program_busy_or_deceive_a_reader_is_refused_at_once(
    small_text: str, says: str
) -> None:
    began = time.monotonic()
    told = "\n".join(str(each) for each in problems_of(HOSTILE[says](small_text)))
    assert says in told
    assert time.monotonic() - began < 2.0


def test_dots_in_words_are_no_tables(small_text: str) -> None:
    title = changed(
        small_text, 'title = "Block"', f'title = """\n{"Turn it. Look again. " * 40}\n{"..." * 20}"""'
    )
    assert problems_of(title) == []
