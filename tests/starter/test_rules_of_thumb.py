"""Rules of thumb: the trade's figures, scaled as the trade scales them, and never dressed as a maker's."""

import re
import tomllib
from dataclasses import replace

import pytest

from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.limit import SourceKind
from fitwright.starter.rules import bottom_end, drives, oil_pump, top_end
from fitwright.starter.rules.rule import Measure, RuleOfThumb
from fitwright.starter.sheet import write_sheet
from tests.starter.grid import BOOSTED_FIVE, ENGINES, FLAT_SIX, IRON_FOUR, WHITE_METAL_FOUR
from tests.support.codebase import ROOT
from tests.support.compare import absolute, verified

PAGES = {"Bottom end": bottom_end, "Top end": top_end, "Drives and seals": drives, "Oil pump": oil_pump}
EVERY_RULE = {
    f"{page}: {name}": rule
    for page, module in PAGES.items()
    for name, rule in vars(module).items()
    if isinstance(rule, RuleOfThumb)
}


def figure(rule, value):
    if value is None:
        return ""
    if rule.share_of:
        return f"{value:.5f}".rstrip("0")
    if value == 0.0:
        return "0"
    return f"{value * 1000:g} {'g' if rule.measure is Measure.MASS else 'mm'}"


def row_of(rule):
    share = f" × {rule.share_of}" if rule.share_of else ""
    cells = (rule.title, figure(rule, rule.lower), f"{figure(rule, rule.upper)}{share}", rule.depends_on)
    return f"| {' | '.join(cells)} |"


def limits_of(answers, fit):
    return read_sheet(write_sheet(answers)).fits[fit].limits


@pytest.mark.parametrize("name", EVERY_RULE)
def test_the_page_of_rules_lists_it(name):
    page = (ROOT / "docs" / "theory" / "rules-of-thumb.md").read_text(encoding="utf-8")
    assert row_of(EVERY_RULE[name]) in page.splitlines()


@pytest.mark.parametrize("name", EVERY_RULE)
def test_a_rule_bounds_something_and_says_on_what_it_depends(name):
    rule = EVERY_RULE[name]
    assert rule.depends_on
    assert rule.lower is not None or rule.upper is not None
    if rule.lower is not None and rule.upper is not None:
        assert rule.lower < rule.upper


def test_a_share_needs_its_size_and_others_take_none():
    with pytest.raises(ValueError, match="is a share"):
        bottom_end.MAIN_SHELLS.bounds()
    with pytest.raises(ValueError, match="is not a share"):
        bottom_end.END_FLOAT.bounds(0.05)


@pytest.mark.parametrize("engine", ENGINES)
def test_no_rule_governs_or_looks_like_a_makers_limit(engine):
    sheet = read_sheet(write_sheet(ENGINES[engine]))
    limits = [limit for each in (*sheet.fits.values(), *sheet.dimensions.values()) for limit in each.limits]
    assert limits
    for limit in limits:
        assert sheet.sources[limit.source].kind is SourceKind.RULE_OF_THUMB
        assert not limit.governs
        assert limit.depends_on
        assert limit.place_in_source is None


@pytest.mark.parametrize("engine", ENGINES)
def test_each_fit_has_a_rule_or_says_why_not(engine):
    text = write_sheet(ENGINES[engine])
    for block in text.split("\n[")[1:]:
        if block.startswith("fits."):
            assert ("Rule of thumb until" in block) or ("No rule of thumb: " in block)
            assert ("limits = [\n" in block) != ("# limits = [" in block)


HAND_WORKING = [
    ("main.1.running_clearance", IRON_FOUR, 0.0008 * 56e-3, 0.0011 * 56e-3),
    ("rod.1.running_clearance", IRON_FOUR, 0.00085 * 47e-3, 0.0011 * 47e-3),
    ("main.1.running_clearance", WHITE_METAL_FOUR, 1.5 * 25.4e-6, 2.0 * 25.4e-6),
    ("cylinder.1.top_ring_gap", IRON_FOUR, 0.004 * 83.5e-3, 0.0045 * 83.5e-3),
    ("cylinder.1.top_ring_gap", BOOSTED_FIVE, 0.005 * 83.5e-3, 0.0065 * 83.5e-3),
    ("cylinder.1.piston_to_wall", IRON_FOUR, 0.0005 * 83.5e-3, 0.0007 * 83.5e-3),
    ("cylinder.1.piston_to_wall", BOOSTED_FIVE, 0.0008 * 83.5e-3, 0.0012 * 83.5e-3),
    ("valve.1.exhaust.stem_clearance", IRON_FOUR, 35e-6, 70e-6),
    ("valve.1.exhaust.stem_clearance", FLAT_SIX, 35e-6, 90e-6),
    ("rod.1.small_end_clearance", IRON_FOUR, 8e-6, 20e-6),
    ("rod.1.small_end_clearance", FLAT_SIX, 15e-6, 30e-6),
    ("rod.1.side_clearance", IRON_FOUR, 0.10e-3, 0.30e-3),
    ("pin.1.side_clearance", ENGINES["pushrod vee"], 0.25e-3, 0.45e-3),
    ("rod.2.big_end_mass_match", BOOSTED_FIVE, -1e-3, 1e-3),
    ("rod.2.big_end_mass_match", IRON_FOUR, -2e-3, 2e-3),
    ("stage.1.end_clearance", FLAT_SIX, 0.04e-3, 0.09e-3),
    ("stage.2.end_clearance", FLAT_SIX, 0.03e-3, 0.06e-3),
    ("pump.inner_rotor.end_clearance", BOOSTED_FIVE, 0.03e-3, 0.08e-3),
    ("pump.driver.end_clearance", IRON_FOUR, 0.04e-3, 0.09e-3),
]


@pytest.mark.parametrize("fit, answers, lower, upper", HAND_WORKING)
def test_limits_are_those_of_the_trade(fit, answers, lower, upper):
    limit = limits_of(answers, fit)[0]
    half_a_step = {"mm": (0.5e-6, 5e-6), "inch": (1.27e-6, 6.35e-6)}[answers.units][lower >= 0.1e-3]
    by = "hand working from the catalogue of fits, rounded to a step of the unit"
    got = [limit.lower.si, limit.upper.si]
    verified(got, [lower, upper], by=by, tolerance=absolute(half_a_step * 1.0001))


def test_clearances_grow_with_their_journal():
    small = limits_of(replace(IRON_FOUR, main_journal=0.040), "main.1.running_clearance")[0]
    large = limits_of(replace(IRON_FOUR, main_journal=0.080), "main.1.running_clearance")[0]
    verified(large.lower.si / small.lower.si, 2.0, by="shares of the journal", tolerance=1e-9)
    verified(large.upper.si / small.upper.si, 2.0, by="shares of the journal", tolerance=1e-9)


def test_a_wear_limit_is_marked_as_one():
    new, worn = limits_of(IRON_FOUR, "crank.end_float")
    assert (str(new.applies_to), str(worn.applies_to)) == ("new", "used")
    assert new.upper.si < worn.upper.si


CRITICAL = (
    r"main\.\d\.running_clearance",
    r"rod\.\d\.running_clearance",
    r"crank\.end_float",
    r"cylinder\.\d\.(piston_to_wall|top_ring_gap|second_ring_gap|squish)",
    r"valve\.\d\.(inlet|exhaust)\.[ab]\.piston_clearance",
    r"pump\.\w+\.end_clearance",
    r"pump\.housing_offset",
    r"relief\.clearance",
    r"pickup\.floor_gap",
)


@pytest.mark.parametrize("pattern", CRITICAL)
def test_where_an_engine_dies_the_fit_is_critical(pattern):
    fits = read_sheet(write_sheet(BOOSTED_FIVE)).fits
    found = [fit for name, fit in fits.items() if re.fullmatch(pattern, name)]
    assert found
    assert all(fit.limit_class == "critical" for fit in found)


def test_two_routes_where_the_trade_has_two():
    fits = read_sheet(write_sheet(BOOSTED_FIVE)).fits
    two = {re.sub(r"\d", "1", name) for name, fit in fits.items() if len(fit.routes) == 2}
    assert two == {
        "main.1.running_clearance",
        "rod.1.running_clearance",
        "rod.1.side_clearance",
        "crank.end_float",
        "cylinder.1.deck",
        "cylinder.1.squish",
        "pump.inner_rotor.end_clearance",
        "pump.outer_rotor.end_clearance",
        "pump.outer_rotor.clearance",
    }


def test_a_hot_ring_closes_its_gap_round_the_bore():
    growth = read_sheet(write_sheet(BOOSTED_FIVE)).fits["cylinder.3.top_ring_gap"].growth
    by = "pi times the bore, out of the wall and into the ring"
    got = [term.coefficient * term.length for term in growth]
    verified(got, [0.26232, -0.26232], by=by, tolerance=absolute(0.00025))
    assert [term.part for term in growth] == ["cylinder.3", "ring.3.top"]


def test_sizes_that_nobody_gave_are_marked():
    text = write_sheet(replace(IRON_FOUR, rod_length=None, main_journal=None))
    marked = [line for line in text.splitlines() if "replace by yours" in line]
    assert [line.split(" = ")[0] for line in marked] == ["rod_length", "nominal", "nominal"]
    assert tomllib.loads(text)["dimensions"]["main.{1..5}.journal"]["nominal"] == "56.000 mm"
