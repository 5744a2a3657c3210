"""Probabilities, values and uncertainties held against a million draws from the raw record.

Limits are adopted close to what was read, so that every probability lies where it can be wrong.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from fitwright.records.kinds import LimitAdopted, Typed
from tests.support.compare import absolute, verified
from tests.support.draws import RecordDraws, by_place, worst
from tests.support.small_sheet import small_story
from tests.support.story import Story

BY = "a million draws of every error, from the raw record"
CHANCE = absolute(0.002)


def amount(si):
    return Typed(typed=repr(si * 1e3), unit="mm", decimals=9, si=si)


def adopt_close(story, subject):
    """Adopt limits that the value meets with middling probability."""
    found = story.verdict(subject)
    u = found.standard_uncertainty
    lower, upper = amount(found.value - 0.9 * u), amount(found.value + 1.4 * u)
    story.says(
        LimitAdopted(
            subject=subject, source="trade", lower=lower, upper=upper, adopted_by="builder", reason="test"
        )
    )
    return story.verdict(subject)


def governing(found):
    return [bound for bound in found.bounds if bound.governs and bound.temperature_case is None]


def check(bound, expected):
    chance, value, spread = expected
    verified(bound.probability, chance, by=BY, tolerance=CHANCE)
    verified(bound.value, value, by=BY, tolerance=absolute(0.02 * spread))
    verified(bound.standard_uncertainty, spread, by=BY, tolerance=0.005)


CHAINS = {
    "main.2.running_clearance": {"main.2.fitted_bore": 1.0, "main.2.journal": -1.0},
    "main.4.running_clearance": {"main.4.fitted_bore": 1.0, "main.4.journal": -1.0},
    "cylinder.3.piston_to_wall": {"cylinder.3.bore": 1.0, "piston.3.skirt": -1.0},
    "rod.4.small_end_clearance": {"rod.4.bush.bore": 1.0, "piston_pin.4.diameter": -1.0},
    "main.3.housing_bore": {"main.3.housing_bore": 1.0},
}


@pytest.mark.parametrize("subject", CHAINS)
def test_fits_of_values(subject):
    story = Story.of("corrie-five")
    found = adopt_close(story, subject)
    draws = RecordDraws(story)
    places = [
        [(factor, draws.size(place[0])) for place in by_place(story, dimension, found.readings)]
        for dimension, factor in CHAINS[subject].items()
    ]
    assert all(places)
    for bound in governing(found):
        check(bound, worst(places, bound.side, bound.limit))


def test_the_route_by_parts_with_stated_walls():
    story = Story.of("corrie-five")
    found = adopt_close(story, "main.2.running_clearance")
    draws = RecordDraws(story)
    route = next(each for each in found.routes if not each.governs)
    build = story.bench().build
    shells = {build.occupant(f"main.2.shell_{half}") for half in ("upper", "lower")}
    walls = [entry for entry, held in build.stated_sizes.items() if shells & set(held.members.values())]
    assert len(walls) == 2
    places = [
        [(1.0, draws.size(place[0])) for place in by_place(story, "main.2.housing_bore", found.readings)],
        [(-1.0, draws.size(place[0])) for place in by_place(story, "main.2.journal", found.readings)],
        *([(-1.0, draws.stated(entry))] for entry in walls),
    ]
    for bound in route.result.bounds[:2]:
        chance, value, spread = worst(places, bound.side, bound.limit)
        verified(bound.probability, chance, by=BY, tolerance=CHANCE)
        verified(bound.value, value, by=BY, tolerance=absolute(0.02 * spread))
        verified(bound.standard_uncertainty, spread, by=BY, tolerance=0.005)


@pytest.mark.parametrize("subject", ["main.2.journal_taper", "rod.1.pin_out_of_round"])
def test_forms(subject):
    story = Story.of("corrie-five")
    dimension = story.sheet.fits[subject].form_of
    story.says(
        LimitAdopted(
            subject=subject, source="trade", upper=amount(1.9e-6), adopted_by="builder", reason="test"
        )
    )
    found = story.verdict(subject)
    draws = RecordDraws(story)
    records = story.bench().build.readings
    sizes = {records[entry].place: draws.size(entry) for entry in found.readings}
    same = 1 if "taper" in subject else 0  # places are plane/angle
    chances = [
        float(np.mean(np.abs(sizes[one] - sizes[other]) <= 1.9e-6))
        for one in sizes
        for other in sizes
        if one < other and one.split("/")[same] == other.split("/")[same]
    ]
    assert len(chances) == 2, (dimension, chances)
    bound = next(each for each in found.bounds if each.governs)
    verified(bound.probability, min(chances), by=BY, tolerance=CHANCE)


def test_a_compression_ratio():
    story = Story.of("corrie-five")
    subject = "cylinder.2.compression_ratio"
    found = adopt_close_ratio(story, subject)
    draws = RecordDraws(story)
    spec = story.sheet.fits[subject].compression
    build = story.bench().build

    def mean(name):
        read = [draws.size(place[0]) for place in by_place(story, name, found.readings)]
        if read:
            return sum(read) / len(read)
        dimension = story.sheet.dimensions[name]
        part = build.occupant(dimension.part)
        entries = [
            entry
            for entry, held in build.stated_sizes.items()
            if held.feature == dimension.feature and part in held.members.values()
        ]
        assert len(entries) == 1, (name, entries)
        return draws.stated(entries[0])

    area = np.pi / 4.0 * mean(spec.bore) ** 2
    clear = (
        mean(spec.chamber_volume)
        + np.pi / 4.0 * mean(spec.gasket_bore) ** 2 * mean(spec.gasket_thickness)
        + area * mean(spec.deck)
        + mean(spec.dish_volume)
        + mean(spec.crevice_volume)
    )
    ratio = 1.0 + area * mean(spec.stroke) / clear
    for bound in governing(found):
        holds = ratio >= bound.limit if bound.side == "lower" else ratio <= bound.limit
        verified(bound.probability, float(np.mean(holds)), by=BY, tolerance=CHANCE)
        verified(bound.value, float(np.mean(ratio)), by=BY, tolerance=absolute(0.02 * float(np.std(ratio))))
        verified(bound.standard_uncertainty, float(np.std(ratio)), by=BY, tolerance=0.005)


def adopt_close_ratio(story, subject):
    found = story.verdict(subject)
    u = found.standard_uncertainty
    lower, upper = found.value - 0.9 * u, found.value + 1.4 * u
    story.says(
        LimitAdopted(
            subject=subject,
            source="trade",
            lower=Typed(typed=repr(lower), unit="1", decimals=6, si=lower),
            upper=Typed(typed=repr(upper), unit="1", decimals=6, si=upper),
            adopted_by="builder",
            reason="test",
        )
    )
    return story.verdict(subject)


def test_blades_on_one_side():
    story = small_story()
    story.tries("gap", None, "F:0.05", "goes freely")
    limit = amount(52e-6)
    story.says(
        LimitAdopted(subject="end_float", source="trade", lower=limit, adopted_by="builder", reason="test")
    )
    found = story.verdict("end_float")
    lower = next(bound for bound in found.bounds if bound.governs and bound.side == "lower")
    upper = next(bound for bound in found.bounds if bound.governs and bound.side == "upper")
    draws = RecordDraws(story)
    low, _ = draws.room(found.readings)
    verified(lower.probability, float(np.mean(low >= 52e-6)), by=BY, tolerance=CHANCE)
    assert upper.probability is None


@pytest.mark.parametrize(
    "subject", ["valve.3.inlet.b.lash", "cylinder.4.top_ring_gap", "rod.2.side_clearance"]
)
def test_blades_on_both_sides(subject):
    story = Story.of("corrie-five")
    found = adopt_close(story, subject)
    draws = RecordDraws(story)
    records = story.bench().build.readings
    tried = [e for e in found.readings if records[e].body.observation.type == "blade"]
    assert tried
    low, high = draws.room(tried)
    weight = np.maximum(high - low, 0.0)
    gap = low + draws.even("gap") * (high - low)
    mean = float(weight @ gap / weight.sum())
    spread = float(np.sqrt(weight @ (gap - mean) ** 2 / weight.sum()))
    for bound in governing(found):
        holds = gap >= bound.limit if bound.side == "lower" else gap <= bound.limit
        verified(bound.probability, float(weight @ holds / weight.sum()), by=BY, tolerance=CHANCE)
        verified(bound.value, mean, by=BY, tolerance=absolute(0.02 * spread))
        verified(bound.standard_uncertainty, spread, by=BY, tolerance=0.01)


def around(entries, records):
    places: dict[str, list[str]] = {}
    for entry in entries:
        places.setdefault(records[entry].place, []).append(entry)
    return places


def test_centring_by_blades():
    """Gaps at five stations drawn between their own blades, weighed by whether the others can be right."""
    story = Story.of("corrie-five")
    before = story.verdict("pump.housing_offset")
    limit = before.value + 0.5 * before.standard_uncertainty
    story.says(
        LimitAdopted(
            subject=before.id, source="trade", upper=amount(limit), adopted_by="builder", reason="test"
        )
    )
    found = story.verdict(before.id)
    draws = RecordDraws(story)
    records = story.bench().build.readings
    gaps = [e for e in found.readings if records[e].dimension == "pump.spigot_gap"]
    turn = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
    rows, rooms = [], []
    for place, entries in around(gaps, records).items():
        word, _, shaft = place.partition("@")
        theta, phi = np.radians(turn[word]), np.radians(float(shaft))
        turned = theta - phi
        rows.append([1.0, np.sin(theta), np.cos(theta), np.sin(turned), np.cos(turned)])
        rooms.append(draws.room(entries))
    design = np.array(rows)
    assert len(rows) == 8
    basis = next(
        list(five) for five in combinations(range(8), 5) if np.linalg.matrix_rank(design[list(five)]) == 5
    )
    drawn, weight = [], np.ones(draws.draws)
    for row in basis:
        low, high = rooms[row]
        drawn.append(low + draws.even(f"gap {row}") * (high - low))
        weight *= np.maximum(high - low, 0.0)
    state = np.linalg.inv(design[basis]) @ np.array(drawn)
    for row in set(range(8)) - set(basis):
        gap = design[row] @ state
        weight *= (gap >= rooms[row][0]) & (gap < rooms[row][1])
    assert np.count_nonzero(weight) > 50_000
    weight /= weight.sum()
    inside = np.hypot(state[1], state[2]) <= limit
    bound = next(each for each in found.bounds if each.governs)
    by = f"{BY}, a blade's error shared by its stations"
    verified(bound.probability, float(weight @ inside), by=by, tolerance=absolute(0.01))
    mean = np.array([weight @ state[1], weight @ state[2]])
    offset = [found.centring.offset.right, found.centring.offset.up]
    verified(offset, mean, by=by, tolerance=absolute(0.1e-6))
    spread = np.sqrt((weight @ (state[1] - mean[0]) ** 2 + weight @ (state[2] - mean[1]) ** 2) / 2.0)
    verified(found.standard_uncertainty, float(spread), by=by, tolerance=0.06)


def test_an_interference_cold_and_its_grip_hot():
    story = small_story()
    story.reads("seat_bore", None, "40.000", instrument="B", setting="S-BR")
    story.reads("seat_diameter", None, "40.066", instrument="M", setting="S-M")
    found = adopt_close(story, "seat_grip")
    draws = RecordDraws(story)
    (bore,), (seat,) = (by_place(story, name, found.readings) for name in ("seat_bore", "seat_diameter"))
    cold = draws.size(seat[0]) - draws.size(bore[0])
    for bound in governing(found):
        holds = cold >= bound.limit if bound.side == "lower" else cold <= bound.limit
        verified(bound.probability, float(np.mean(holds)), by=BY, tolerance=CHANCE)
    sheet = story.sheet
    hot = {}
    for name, case in sheet.temperature_cases.items():
        sizes = {}
        for part, entry in (("seat", seat[0]), ("head", bore[0])):
            material = sheet.materials[sheet.parts[part].material]
            own = part if part in case.parts else "default"
            rise = case.parts.get(part, case.default) - 293.15
            rise = rise + draws.normal(f"case {name} {own}", case.standard_uncertainty)
            alpha = material.expansion + draws.normal(f"alpha {material.id}", material.expansion_uncertainty)
            sizes[part] = draws.size(entry) * (1.0 + alpha * rise)
        hot[name] = sizes["seat"] - sizes["head"]
    grip = next(bound for bound in found.bounds if bound.source_kind == "computed")
    chances = {name: float(np.mean(left >= 0.0)) for name, left in hot.items()}
    assert 0.05 < min(chances.values()) < 0.95
    assert grip.temperature_case == min(chances, key=chances.get)
    verified(grip.probability, min(chances.values()), by=BY, tolerance=CHANCE)
    verified(
        [state.value for state in found.hot],
        [float(np.mean(hot[state.case])) for state in found.hot],
        by=BY,
        tolerance=absolute(0.3e-6),
    )
    verified(
        [state.standard_uncertainty for state in found.hot],
        [float(np.std(hot[state.case])) for state in found.hot],
        by=BY,
        tolerance=0.01,
    )


def test_a_limit_for_a_hot_state():
    story = small_story()
    story.tries("gap", None, "F:0.07", "goes")
    story.tries("gap", None, "F:0.08", "does not go")
    found = story.verdict("hot_gap")
    draws = RecordDraws(story)
    low, high = draws.room(found.readings)
    weight = np.maximum(high - low, 0.0)
    gap = low + draws.even("gap") * (high - low)
    warmer = draws.normal("default", 5.0)  # neither part has a temperature of its own
    apart = draws.normal("alpha aluminium", 1e-6) - draws.normal("alpha steel", 1e-6)
    first_order = gap + 0.1 * (70.0 * 11.5e-6 + warmer * 11.5e-6 + 70.0 * apart)
    in_full = gap + 0.1 * (70.0 + warmer) * (11.5e-6 + apart)
    for bound in found.bounds:
        assert bound.governs
        assert bound.temperature_case == "hot"
        for hot, by, allowed in (
            (first_order, f"{BY}, growth to first order", 0.002),
            (in_full, f"{BY}, product of both errors included", 0.004),
        ):
            holds = hot >= bound.limit if bound.side == "lower" else hot <= bound.limit
            chance = float(weight @ holds / weight.sum())
            verified(bound.probability, chance, by=by, tolerance=absolute(allowed))
