"""The picture of each sum: the numbers put in and found, handed to the drawing that shows them."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from markupsafe import Markup

from fitwright.assess.results import Verdict
from fitwright.drawing.limit_picture import Bracket, Ends, LimitPicture
from fitwright.drawing.sum_pictures import chain as chains
from fitwright.drawing.sum_pictures import press as presses
from fitwright.drawing.sum_pictures.blade_answers import Said, blade_answers
from fitwright.drawing.sum_pictures.blade_stack import blade_stack
from fitwright.drawing.sum_pictures.growth import Member, growth
from fitwright.drawing.sum_pictures.round_shaft import Around, round_shaft
from fitwright.drawing.sum_pictures.rulers import Ruler, rulers
from fitwright.drawing.sum_pictures.sketch import Labelled
from fitwright.drawing.sum_pictures.spread import spread
from fitwright.drawing.sum_pictures.study import study
from fitwright.sums.declaration import Figure, Sum, SumResult
from fitwright.sums.forms import Given
from fitwright.sums.shown import converted_text
from fitwright.units import definition_of
from fitwright.units.families import Family
from fitwright.units.rounding import in_unit
from fitwright.web.pages.sums.fastener_pictures import FASTENER_PICTURES
from fitwright.web.pages.sums.oil_pictures import OIL_PICTURES
from fitwright.web.pages.sums.pump_pictures import PUMP_PICTURES
from fitwright.web.pages.sums.seen import Seen

MOST_ANSWERS: Final = 12
"""Answers of blades that a picture shows: those nearest to the gap."""


def picture_of(asked: Sum, given: Given, result: SumResult, family: Family) -> Markup:
    """The picture of a sum with its numbers; our own SVG, all words in it escaped."""
    seen = Seen(given, result, family)
    return Markup(_PICTURES[asked.name](seen, f"{asked.title}: {_spoken(asked, seen)}"))  # noqa: S704


def _spoken(asked: Sum, seen: Seen) -> str:
    """What leads, in words, for who cannot see the picture."""
    found = []
    for output in asked.outputs:
        value = seen.value(output.key) if output.leads else None
        if isinstance(value, float) and output.dimension is not None:
            found.append(f"{output.key.replace('_', ' ')} {seen.words(value, output.dimension)}")
        elif isinstance(value, str):
            found.append(f"{output.key.replace('_', ' ')} {value}")
    return ", ".join(found)


def _number(value: float, unit: str, dimension: str = "length") -> float:
    return float(in_unit(value, unit, dimension))


def _convert(seen: Seen, label: str) -> str:
    results = seen.result.results
    si = results["amount_in_si"]
    assert si is not None  # noqa: S101  (an amount always has it)
    upper, lower = _two_units([results[key] for key in ("converted", "in_millimetre_shop", "in_inch_shop")])
    value = float(si.value)  # type: ignore[arg-type]  # a number
    zero = 0.0 if si.dimension != "temperature" else min(273.15, value)
    far = value + 0.3 * (value - zero) if value != zero else value + 1.0
    low, high = min(zero, far), max(zero, far)
    share = (value - low) / (high - low)
    return rulers(_ruler(upper, low, high), _ruler(lower, low, high), share, label)


def _two_units(figures: Sequence[Figure | None]) -> tuple[Figure, Figure]:
    """Two figures in different units, else one of them twice."""
    by_unit = {each.unit: each for each in figures if each is not None}
    first, *others = by_unit.values()
    return first, (others or [first])[-1]


def _ruler(figure: Figure, low: float, high: float) -> Ruler:
    unit, dimension = figure.unit or "1", figure.dimension or "ratio"
    shown = definition_of(unit, dimension).shown
    words = f"{converted_text(in_unit(_si(figure), unit, dimension))} {shown}"
    return Ruler(_number(low, unit, dimension), _number(high, unit, dimension), shown, words)


def _si(figure: Figure) -> float:
    definition = definition_of(figure.unit or "1", figure.dimension)
    return float(figure.value) * float(definition.factor) + float(definition.offset)  # type: ignore[arg-type]


def _blades(seen: Seen, label: str) -> str:
    limits = {side: seen.given[f"{side}_limit"] for side in ("lower", "upper")}
    interval: Ends = seen.value("interval") or (None, None)
    tried = [(_thickness(each), each["answer"]) for each in seen.given["answers"] or ()]
    sizes = [*(each for each in limits.values() if each is not None), *(size for size, _ in tried)]
    unit = seen.unit(max(sizes))
    brackets = tuple(
        Bracket(side, _number(limit, unit)) for side, limit in limits.items() if limit is not None
    )
    verdict = _verdict(seen.value("verdict"))
    low, high = (None if each is None else _number(each, unit) for each in interval)
    value = seen.value("value")
    best = None if value is None else _number(value, unit)
    # Blades stand on the axis too: it has to reach them.
    reach = [_number(size, unit) for size, _ in tried]
    if seen.value("contradictory_answers") or (low is None and high is None and reach):
        low, high, best = min(reach, default=None), max(reach, default=None), None
    picture = LimitPicture(brackets, (low, high), best, verdict)
    said = [_said(seen, size, answer, unit) for size, answer in _nearest(tried, value)]
    return blade_answers(picture, said, label)


def _thickness(each: Given) -> float:
    return float(each["thickness"] or sum(one["thickness"] for one in each["stack"] or ()))


def _nearest(tried: list[tuple[float, str]], value: float | None) -> list[tuple[float, str]]:
    middle = value if value is not None else sum(size for size, _ in tried) / max(len(tried), 1)
    return sorted(tried, key=lambda each: abs(each[0] - middle))[:MOST_ANSWERS]


def _said(seen: Seen, size: float, answer: str, unit: str) -> Said:
    goes, drags = answer.startswith("goes"), answer == "drags"
    return Said(
        _number(size, unit), f"{seen.words(size)} {answer}", goes or drags, drags or answer == "does not go"
    )


def _verdict(words: str | None) -> Verdict:
    return Verdict((words or "unproven").replace(" ", "-"))


def _stack(seen: Seen, label: str) -> str:
    blades = [Labelled(size, seen.words(size)) for size in seen.value("blades")]
    total, wanted = seen.value("thickness"), seen.given["wanted_thickness"]
    return blade_stack(
        blades,
        Labelled(total, seen.words(total)),
        Labelled(wanted, f"wanted {seen.words(wanted)}"),
        label,
    )


def _centring(seen: Seen, label: str) -> str:
    offset = _vector(seen, "offset_right", "offset_up")
    limit = seen.given["upper_limit"]
    size = seen.value("offset")
    corners = [(row["right"].value, row["up"].value) for row in seen.value("possible_offsets") or ()]
    return round_shaft(
        Around(
            gaps=[Labelled(each["angle"], _gap(seen, each)) for each in seen.given["gaps"]],
            offset=offset,
            offset_words="" if size is None else f"offset {seen.words(size)}",
            limit=None if limit is None else Labelled(limit, f"limit {seen.words(limit)}"),
            corners=corners,
            uncertainty=_vector(seen, "offset_right_standard_uncertainty", "offset_up_standard_uncertainty"),
            sides=tuple(seen.given[f"{side}_name"] for side in ("top", "right", "bottom", "left")),
        ),
        label,
    )


def _vector(seen: Seen, right: str, up: str) -> tuple[float, float] | None:
    x, y = seen.value(right), seen.value(up)
    return None if x is None or y is None else (x, y)


def _gap(seen: Seen, each: Given) -> str:
    low, high = each["at_least"], each["less_than"]
    if each["gap"] is not None:
        return seen.words(each["gap"])
    if low is None or high is None:
        return f"< {seen.words(high)}" if low is None else f"≥ {seen.words(low)}"
    return f"{seen.words(low).partition(' ')[0]}–{seen.words(high)}"


def _expansion(seen: Seen, label: str) -> str:
    rows = seen.value("members")
    members = [
        Member(
            row["name"].value,
            each["coefficient"] > 0.0,
            row["size"].value,
            row["change"].value,
            f"{seen.words(row['size'].value)} → {seen.words(row['size_at_temperature'].value)}",
        )
        for each, row in zip(seen.given["members"], rows, strict=True)
    ]
    cold, warm = seen.value("cold_size"), seen.value("size_at_temperature")
    low, high = seen.value("interval")
    unit = seen.unit(max(abs(cold), abs(warm)))
    fit = LimitPicture(
        (), (None, None), _number(cold, unit), Verdict.UNPROVEN, (_number(low, unit), _number(high, unit))
    )
    return growth(members, fit, (f"cold {seen.words(cold)}", f"warm {seen.words(warm)}"), label)


def _five_lift(seen: Seen, label: str) -> str:
    mean, deviation = seen.value("mean"), seen.value("repeatability_standard_deviation")
    band = seen.given["limit_band"]
    unit = seen.unit(abs(mean))
    return spread(
        [_number(each, unit) for each in seen.given["indications"]],
        Labelled(_number(mean, unit), f"mean {seen.words(mean)}"),
        _number(deviation, unit),
        None if band is None else Labelled(_number(band, unit), f"limit band {seen.words(band)}"),
        label,
    )


def _study(seen: Seen, label: str) -> str:
    readings: dict[tuple[str, str], list[float]] = {}
    rows = seen.given["readings"]
    unit = seen.unit(max(abs(each["indication"]) for each in rows))
    for each in rows:
        readings.setdefault((each["person"], each["part"]), []).append(_number(each["indication"], unit))
    return study(readings, unit, label)


def _interference(seen: Seen, label: str) -> str:
    given, length = seen.given, seen.given["length"]
    return presses.press(
        presses.Press(
            shaft=Labelled(given["shaft_diameter"], seen.words(given["shaft_diameter"])),
            outer=Labelled(given["hub_outer_diameter"], seen.words(given["hub_outer_diameter"])),
            bore=Labelled(given["shaft_bore_diameter"], seen.words(given["shaft_bore_diameter"])),
            length="" if length is None else seen.words(length),
            interference=f"{seen.words(seen.value('interference'))} on diameter",
            pressure=f"pressure {seen.words(seen.value('contact_pressure'), 'pressure')}",
            grips=seen.value("contact_pressure") > 0.0,
        ),
        label,
    )


def _missing(seen: Seen, label: str) -> str:
    links = []
    rest = seen.value("sum_of_the_others")
    for number, each in enumerate(seen.given["members"], start=1):
        missing = each["size"] is None
        signed = (
            math.copysign(abs(rest), each["coefficient"]) if missing else each["coefficient"] * each["size"]
        )
        times = "" if abs(each["coefficient"]) == 1.0 else f"{abs(each['coefficient']):g} × "
        size = _wanted(seen) if missing else seen.words(each["size"])
        links.append(chains.Link(signed, missing, f"{each['name'] or f'member {number}'}: {times}{size}"))
    return chains.chain(links, "fit", label)


def _wanted(seen: Seen) -> str:
    smallest, largest = seen.value("smallest_size"), seen.value("largest_size")
    if not seen.value("is_possible"):
        return "no size would do"
    if smallest is None or largest is None:
        return f"from {seen.words(smallest)}" if largest is None else f"up to {seen.words(largest)}"
    return f"{seen.words(smallest)} to {seen.words(largest)}"


_PICTURES: Final[Mapping[str, Callable[[Seen, str], str]]] = MappingProxyType(
    {
        "blade-stack": _stack,
        "blades": _blades,
        "centring": _centring,
        "convert": _convert,
        "expansion": _expansion,
        "five-lift": _five_lift,
        "gauge-study": _study,
        "interference": _interference,
        "missing-part": _missing,
        **FASTENER_PICTURES,
        **OIL_PICTURES,
        **PUMP_PICTURES,
    }
)
"""How each sum is drawn; a test asks for every one."""
