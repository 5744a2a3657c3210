from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import fitwright
from fitwright.formats.sheet import SheetProblemsError, read_sheet
from fitwright.formats.sheet.diff import differences
from fitwright.formats.sheet.editing import NewLimit, UnknownSubjectError, set_limit
from fitwright.formats.sheet.exact import exact
from fitwright.formats.sheet.show import sheet_text
from fitwright.formats.sheet.templates import NoTemplateError, shared
from fitwright.formats.sheet.writer import write_sheet
from fitwright.model.braces import expand, fill
from fitwright.units import parse_quantity

HERE = Path(__file__).resolve()
SHEETS = sorted(
    [
        *(HERE.parents[1] / "data" / "sheets").glob("*.toml"),
        *(Path(fitwright.__file__).parent / "examples").glob("*/sheet.toml"),
    ]
)
INTERFERENCE = "seat.{inlet,exhaust}.{a,b}.interference"
CLEARANCE = "main.{1..2}.running_clearance"


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_written_sheet_reads_back_as_the_same_sheet(path: Path) -> None:
    sheet = read_sheet(path.read_text(encoding="utf-8"))
    written = write_sheet(sheet)
    assert read_sheet(written) == sheet
    assert write_sheet(read_sheet(written)) == written
    assert differences(sheet, read_sheet(written)) == ()


def test_families_are_written_under_their_braces(small_text: str) -> None:
    written = write_sheet(read_sheet(small_text))
    assert '[dimensions."main.{1..2}.shell_{upper,lower}.wall"]' in written
    assert 'part = "main.{0}.shell_{1}"' in written


def test_a_family_with_a_member_that_differs_is_written_one_by_one(small_text: str) -> None:
    sheet = read_sheet(small_text)
    other = replace(sheet.dimensions["main.2.journal"], title="The rear one")
    changed = replace(sheet, dimensions={**sheet.dimensions, "main.2.journal": other})
    again = read_sheet(write_sheet(changed))
    assert again.dimensions["main.2.journal"].title == "The rear one"
    assert again.dimensions["main.1.journal"].title == "Main 1 journal"


words = st.sampled_from(["1", "2", "12", "upper", "a", "shell", "main 1 of 2", "shell_upper"])


@given(
    st.lists(words, min_size=1, max_size=5),
    st.sampled_from(["x.{1..3}", "x.{1..2}.{upper,a}", "x.{12,1}.{1..2}.{a,upper}"]),
    st.data(),
)
@settings(max_examples=150)
def test_a_shared_text_gives_back_the_texts_of_all_members(
    pieces: list[str], key: str, data: st.DataObject
) -> None:
    members = expand(key)
    count = len(members[0].values)
    holes = [f"{{{data.draw(st.integers(0, count - 1))}}}" if index % 2 else piece
             for index, piece in enumerate(pieces)]  # fmt: skip
    values = [member.values for member in members]
    texts = [fill(" ".join(holes), each) for each in values]
    try:
        template = shared(texts, values)
    except NoTemplateError:
        pytest.fail(f"no shared text found for {texts}")
    assert [fill(template, each) for each in values] == texts


@given(st.floats(1e-7, 1e3), st.sampled_from([("degC", "K"), ("mm", "m"), ("ppm/K", "/K"), ("GPa", "Pa")]))
@settings(max_examples=100)
def test_an_amount_in_a_usual_unit_gives_the_same_number_back(value: float, units: tuple[str, str]) -> None:
    assert parse_quantity(exact(value, *units)).si == value


def test_a_limit_is_set_and_all_else_stays_as_written(small_text: str) -> None:
    new = NewLimit("manual", lower="0.045 mm", upper="0.070 mm", at="p. 12")
    changed = set_limit(small_text, CLEARANCE, new)
    before, after = small_text.splitlines(), changed.splitlines()
    assert len(before) == len(after)
    assert sum(one != other for one, other in zip(before, after, strict=True)) == 1
    old, sheet = read_sheet(small_text), read_sheet(changed)
    assert differences(old, sheet) == (
        "main.{1..2}.running_clearance: upper limit 0.065 mm -> 0.070 mm (manual, p. 12)",
    )


def test_a_limit_of_another_source_is_added_and_governs_alone(small_text: str) -> None:
    changed = set_limit(small_text, CLEARANCE, NewLimit("thumb", upper="0.060 mm", governs=False))
    assert [limit.source for limit in read_sheet(changed).fits["main.2.running_clearance"].limits] == [
        "manual",
        "manual",
        "thumb",
    ]
    maker = '[sources.leaflet]\ntitle = "Shell maker"\nkind = "parts maker"\n\n[sources.thumb]'
    text = small_text.replace("[sources.thumb]", maker)
    sheet = read_sheet(set_limit(text, CLEARANCE, NewLimit("leaflet", "0.050 mm", "0.060 mm")))
    assert [limit.governs for limit in sheet.fits["main.1.running_clearance"].limits] == [False, False, True]


@pytest.mark.parametrize("subject", ["pump.outer_gap", "main.{1..2}.journal", "crank.stroke"])
def test_a_first_limit_and_one_below_its_own_headings_are_added(small_text: str, subject: str) -> None:
    new = NewLimit("manual", upper="83 mm", applies_to="used")
    sheet = read_sheet(set_limit(small_text, subject, new))
    added = sheet.dimensions[expand(subject)[0].name].limits[-1]
    assert added.upper is not None
    assert added.upper.written == "83 mm"
    assert "# Everything in it is invented." in set_limit(small_text, subject, new)


def test_what_cannot_be_set_says_why(small_text: str) -> None:
    with pytest.raises(UnknownSubjectError, match=r"one of the family main\.\{1\.\.2\}\.journal"):
        set_limit(small_text, "main.1.journal", NewLimit("manual", upper="56 mm"))
    with pytest.raises(UnknownSubjectError, match='did you mean "pump_offset"'):
        set_limit(small_text, "pump_ofset", NewLimit("manual", upper="56 mm"))
    with pytest.raises(SheetProblemsError, match="is a pressure where a length is wanted"):
        set_limit(small_text, "pump_offset", NewLimit("manual", upper="1 bar"))
    with pytest.raises(SheetProblemsError, match="a rule of thumb cannot govern"):
        set_limit(small_text, INTERFERENCE, NewLimit("thumb", lower="0.07 mm"))


DIFFERENCES = [
    ('revision = "A"', 'revision = "B"', ["engine: revision A -> B"]),
    ('stroke = "82.00 mm"', 'stroke = "82.50 mm"', ["engine: stroke 82.00 mm -> 82.50 mm"]),
    ('left = "inlet side"', 'left = "near side"', ["engine: directions, left inlet side -> near side"]),
    ('default = "90 degC"', 'default = "95 degC"', ["hot_idle: default 90 degC -> 95 degC"]),
    (
        '{ source = "manual", at = "p. 12", upper = "0.090 mm", applies_to = "used" },',
        "",
        [f"{CLEARANCE}: limit taken out: upper 0.090 mm, for used parts (manual, p. 12)"],
    ),
    (
        'upper = "0.090 mm", applies_to',
        'upper = "0.095 mm", applies_to',
        [f"{CLEARANCE}: upper wear limit 0.090 mm -> 0.095 mm (manual, p. 12)"],
    ),
    (
        'lower = "0.10 mm", upper = "0.30 mm", temp',
        'upper = "0.30 mm", temp',
        ["valve.inlet.{a,b}.lash_cold: lower limit at hot_idle 0.10 mm -> none (manual, p. 20)"],
    ),
    ("journal_taper", "taper", ["main.{1..2}.journal_taper: is now called main.{}.taper"]),
    (
        "fitted_bore - main.{}.journal",
        "fitted_bore - 2 * main.{}.journal",
        [
            (f"{CLEARANCE}: fitted main.{{}}.fitted_bore - main.{{}}.journal -> "
            "main.{}.fitted_bore - 2 * main.{}.journal")
        ],
    ),
    ("removes_metal = true\nlimits", "limits", [f"{CLEARANCE}: removes metal yes -> no"]),
    ('places = ["{1..3}"]', 'places = ["{1..4}"]', ["pump.outer_rotor.thickness: places: 4 added"]),
    ('"middle", "bottom"]', '"bottom"]', ["cylinder.1.bore: planes: middle taken out"]),
    ('judged = "mean"', "", ["cylinder.1.deck: judged mean -> worst"]),
    (
        '    "pump.pocket_depth",\n    "pump.outer_rotor.thickness",',
        '    "pump.outer_rotor.thickness",\n    "pump.pocket_depth",',
        [
            "pump: order: pump.outer_rotor.thickness, pump.pocket_depth, pump.outer_gap, pump.spigot_gap added"  # noqa: E501
        ],
    ),
    ('id = "pump.scored"', 'id = "pump.marks"', ["pump: eye check pump.scored taken out",
                                                 "pump: eye check pump.marks added"]),
    ("wanted = false", "", ["pump: eye check pump.scored, wanted no -> yes"]),
    ('[fits."cylinder.1.squish"]\n', '[fits."cylinder.1.squish"]\nnote = "cold"\n',
     ["cylinder.1.squish: note none -> cold"]),
]  # fmt: skip


@pytest.mark.parametrize("old, new, sentences", DIFFERENCES, ids=[each[1][:30] for each in DIFFERENCES])
def test_each_difference_has_its_sentence(small_text: str, old: str, new: str, sentences: list[str]) -> None:
    assert old in small_text
    found = differences(read_sheet(small_text), read_sheet(small_text.replace(old, new, 1)))
    assert list(found) == sentences


def test_entries_added_and_taken_out_are_named(small_text: str) -> None:
    more = '[parts."main.{3..4}.shell_upper"]\ntitle = "Main {} shell"\nmaterial = "steel"\n\n[parts.gasket]'
    text = small_text.replace("[parts.gasket]", more)
    there = differences(read_sheet(small_text), read_sheet(text))
    assert there == ("main.3.shell_upper: part added", "main.4.shell_upper: part added")
    back = differences(read_sheet(text), read_sheet(small_text))
    assert back == ("main.3.shell_upper: part taken out", "main.4.shell_upper: part taken out")


def test_members_that_change_each_in_its_own_way_are_named_alone(small_text: str) -> None:
    family = '[parts."main.{1..2}.shell_{upper,lower}"]\ntitle = "Main {} {} shell"\nmaterial = "steel"\n'
    assert family in small_text
    apart = (
        '[parts."main.1.shell_{upper,lower}"]\ntitle = "Main 1 {} shell"\nmaterial = "steel"\n\n'
        '[parts."main.2.shell_{upper,lower}"]\ntitle = "Rear {} shell"\nmaterial = "steel"\n'
    )
    found = differences(read_sheet(small_text), read_sheet(small_text.replace(family, apart)))
    assert found == (
        "main.2.shell_upper: title Main 2 upper shell -> Rear upper shell",
        "main.2.shell_lower: title Main 2 lower shell -> Rear lower shell",
    )


def test_a_sheet_text_names_every_limit_with_its_source(small_text: str) -> None:
    text = sheet_text(read_sheet(small_text))
    assert text.startswith("Fell Single, revision A\n")
    assert "16 parts, 32 dimensions, 15 fits, 17 of these with limits, 4 critical" in text
    for line in (
        "  main.{1..2}.running_clearance: running clearance, diametral, critical",
        "    0.045 mm to 0.065 mm: manual p. 12, governs",
        "    at most 0.090 mm: manual p. 12, for used parts",
        "    0.06 mm to 0.10 mm: thumb, a rule of thumb, depends on diameter, aluminium head",
        "  Caution: Lock the stand and keep hands clear of the crank throws while turning it.",
    ):
        assert f"\n{line}\n" in text
    assert "nothing governs" not in text
    critical = small_text.replace('kind = "interference"', 'kind = "interference"\nclass = "critical"')
    assert "nothing governs until a named person adopts a limit" in sheet_text(read_sheet(critical))
