from __future__ import annotations

import hashlib
import re
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitwright.formats.sheet import SheetProblemsError, check_sheet, read_sheet
from fitwright.formats.sheet.surroundings import (
    _USUAL_EXPANSION_UNCERTAINTY,
    _USUAL_TEMPERATURE_UNCERTAINTY,
)
from fitwright.model.amount import Written
from fitwright.model.dimension import Place
from fitwright.model.fit import ChainTerm, RouteName
from fitwright.model.part import Material, TemperatureCase
from tests.support.compare import absolute, verified


def test_the_small_sheet_reads(small_text: str) -> None:
    sheet = read_sheet(small_text)
    assert sheet.engine.name == "Fell Single"
    assert list(sheet.sources) == ["manual", "thumb"]
    assert sheet.digest == hashlib.sha256(small_text.encode()).hexdigest()
    assert sheet.engine.facts == {"Oil": "10W-50 type, 2.2 L"}


def test_families_expand_with_their_texts(small_text: str) -> None:
    sheet = read_sheet(small_text)
    wall = sheet.dimensions["main.2.shell_lower.wall"]
    assert wall.title == "Main 2 lower shell wall"
    assert (wall.part, wall.feature) == ("main.2.shell_lower", "wall")
    assert wall.family == "main.{1..2}.shell_{upper,lower}.wall"
    assert sheet.dimensions["main.1.journal"].feature == "main.1.journal"
    assert sheet.dimensions["crank.stroke"].family is None
    assert sheet.dimensions["main.1.fitted_bore"].through == (
        "main.1.housing_bore",
        "main.1.shell_upper",
        "main.1.shell_lower",
    )


def test_routes_take_the_members_of_their_own_family(small_text: str) -> None:
    fit = read_sheet(small_text).fits["main.2.running_clearance"]
    assert [route.name for route in fit.routes] == [RouteName.BY_PARTS, RouteName.FITTED]
    assert fit.governing_route is RouteName.FITTED
    assert fit.routes[1].chain == (
        ChainTerm(1.0, "main.2.fitted_bore"),
        ChainTerm(-1.0, "main.2.journal"),
    )


def test_places_come_from_planes_and_angles_or_by_name(small_text: str) -> None:
    dimensions = read_sheet(small_text).dimensions
    assert dimensions["main.1.journal"].places[1] == Place("front/90", "front", "90")
    assert dimensions["main.1.fitted_bore"].places[1] == Place("rear", plane="rear")
    assert len(dimensions["pump.spigot_gap"].places) == 8
    assert dimensions["crank.stroke"].places == (Place("whole"),)


def test_a_station_without_an_order_takes_its_dimensions_as_they_stand(small_text: str) -> None:
    sheet = read_sheet(small_text)
    assert sheet.stations["mains"].order[:3] == ("main.1.journal", "main.2.journal", "main.1.housing_bore")
    assert sheet.stations["pump"].order[0] == "pump.pocket_depth"


def test_a_ratio_may_be_a_plain_number(small_text: str) -> None:
    limit = read_sheet(small_text).fits["cylinder.1.compression_ratio"].limits[0]
    assert limit.upper == Written("10.8", 10.8, "1", 1)
    assert limit.lower is not None
    assert limit.lower.si == 10.2


def test_temperatures_are_kelvin_and_families_of_parts_expand(small_text: str) -> None:
    case = read_sheet(small_text).temperature_cases["hot_idle"]
    assert len(case.parts) == 5
    verified(
        [case.default, case.parts["main.2.shell_upper"]],
        [363.15, 378.15],
        by="degrees Celsius plus 273.15 by hand",
        tolerance=1e-12,
    )


def test_what_a_sheet_leaves_out_is_what_the_model_leaves_out() -> None:
    material = Material("steel", "Steel", 11e-6)
    case = TemperatureCase("hot", "Hot", 363.15, {})
    assert material.expansion_uncertainty == _USUAL_EXPANSION_UNCERTAINTY
    assert case.standard_uncertainty == _USUAL_TEMPERATURE_UNCERTAINTY


def test_one_text_is_read_once_in_a_process(small_text: str) -> None:
    assert read_sheet(small_text) is read_sheet(str(small_text))


def test_windows_line_ends_and_a_byte_order_mark_change_nothing(small_text: str) -> None:
    other = "\ufeff" + small_text.replace("\n", "\r\n")
    assert read_sheet(other) == read_sheet(small_text)


def test_an_inch_sheet_is_the_millimetre_sheet(small_text: str) -> None:
    """Every millimetre amount said in inches, to digits enough that nothing is rounded away."""

    def in_inches(found: re.Match[str]) -> str:
        inches = Fraction(found[1]) / Fraction("25.4")
        digits = f"{round(inches * 10**18)}".lstrip("-").zfill(19)
        return f"{'-' if inches < 0 else ''}{digits[:-18]}.{digits[-18:]} in"

    text, count = re.subn(r"(?<=[\" ])(-?\d+(?:\.\d+)?) mm\b", in_inches, small_text)
    assert count == small_text.count(" mm") > 40
    metric, inch = numbers_of(read_sheet(small_text)), numbers_of(read_sheet(text))
    assert metric.keys() == inch.keys()
    both = [(metric[key], inch[key]) for key in metric if metric[key]]
    verified(
        [inch for _, inch in both],
        [metric for metric, _ in both],
        by="the same sheet in millimetres",
        tolerance=absolute(1e-12),
    )


def numbers_of(value: Any, path: str = "") -> dict[str, float]:
    """All SI numbers of a sheet by where they stand."""
    if isinstance(value, Written):
        return {path: value.si}
    if isinstance(value, float):
        return {path: value}
    items: dict[str, float] = {}
    if is_dataclass(value):
        for each in fields(value):
            items |= numbers_of(getattr(value, each.name), f"{path}.{each.name}")
    elif isinstance(value, dict):
        for key, inner in value.items():
            items |= numbers_of(inner, f"{path}.{key}")
    elif isinstance(value, tuple):
        for index, inner in enumerate(value):
            items |= numbers_of(inner, f"{path}.{index}")
    return items


@given(st.text(max_size=200))
@settings(max_examples=150)
def test_any_text_reads_or_says_what_is_wrong(text: str) -> None:
    _reads_or_says(text)


pieces = st.sampled_from(
    ["[engine]", "[dimensions.x]", "[[fits.a.limits]]", '"main.{1..2}.x"', "format = 1", 'title = "{}"', "=",
     "\n", "sense = 'radial'", "[", "]", "{", "}", "..", '"2 mm"', "1.5", "inf", "2020-01-01", "a.b"]
)  # fmt: skip


@given(st.lists(pieces, max_size=14).map(" ".join))
@settings(max_examples=150)
def test_any_pieces_of_a_sheet_read_or_say_what_is_wrong(text: str) -> None:
    _reads_or_says(text)


@given(st.data())
@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_a_sheet_with_a_line_changed_reads_or_says_what_is_wrong(
    small_text: str, data: st.DataObject
) -> None:
    lines = small_text.splitlines()
    index = data.draw(st.integers(0, len(lines) - 1))
    change = data.draw(st.sampled_from(["drop", "twice", "words", "swap", "cut"]))
    if change == "drop":
        del lines[index]
    elif change == "twice":
        lines.insert(index, lines[index])
    elif change == "words":
        lines[index] = lines[index].replace('"', data.draw(st.sampled_from(["", "'", "{}", '"{9}'])))
    elif change == "swap":
        other = data.draw(st.integers(0, len(lines) - 1))
        lines[index], lines[other] = lines[other], lines[index]
    else:
        lines[index] = lines[index][: data.draw(st.integers(0, len(lines[index])))]
    _reads_or_says("\n".join(lines))


values = st.one_of(
    st.booleans().map(lambda value: str(value).lower()),
    st.integers(-3, 99).map(str),
    st.sampled_from(
        [
            '"2 mm"',
            '"x"',
            '""',
            "[]",
            "{}",
            "[1]",
            '["a"]',
            "1.5",
            "{ a = 1 }",
            '["{1..3}"]',
            "nan",
            "12:00:00",
        ]
    ),
)


@given(st.data())
@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
def test_a_sheet_with_any_value_in_any_place_reads_or_says_what_is_wrong(
    small_text: str, data: st.DataObject
) -> None:
    lines = small_text.splitlines()
    settable = [index for index, line in enumerate(lines) if re.match(r'^"?[\w{},.]+"? = [^\[{]', line)]
    index = data.draw(st.sampled_from(settable))
    lines[index] = f"{lines[index].partition(' = ')[0]} = {data.draw(values)}"
    _reads_or_says("\n".join(lines))


def _reads_or_says(text: str) -> None:
    sheet, problems = check_sheet(text)
    assert (sheet is None) == bool(problems)
    for problem in problems:
        assert problem.line >= 1
        assert problem.column >= 1
        assert problem.line <= text.count("\n") + 1
        assert "\n" not in problem.what
    if sheet is None:
        with pytest.raises(SheetProblemsError) as caught:
            read_sheet(text)
        assert caught.value.problems == problems
