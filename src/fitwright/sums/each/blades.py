"""What blades say of a gap: where it lies, and whether its limits are proven."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.blades import (
    BLADE,
    DEFAULT_BLADE_UNCERTAINTY,
    THICKNESS,
    UNCERTAINTY,
    blade,
    blades_of,
    interface_numbers,
)
from fitwright.sums.declaration import Computed, Found, Output, PutIn, Row, Step, Sum
from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import Amount, Choice, Given, Group, Input, Several

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fitwright.physics.metrology.blade_sets import SetCapability
    from fitwright.physics.metrology.conformity import Bound, DecisionRule
    from fitwright.physics.metrology.readings import Blade, BladeReading
    from fitwright.physics.metrology.result import BoundResult, ChainResult

_GAP = "gap"
_SHOWN = 3
"""How many of the things that would settle a bound are shown."""


def _compute(given: Given) -> Found:
    from fitwright.physics.metrology.chain import judge_chain
    from fitwright.physics.metrology.combinations import Term
    from fitwright.physics.metrology.conformity import DecisionRule

    rule = DecisionRule(within=given["required_probability"], outside=1.0 - given["required_probability"])
    readings, bounds, shelf = _readings(given), _bounds(given), _shelf(given)
    if not readings and not (bounds and shelf):
        raise MissingInputError("answers", "give answers, or limits and a blade_set to ask what it can prove")
    result = judge_chain([Term(1.0, (_GAP,))], [], readings, bounds, rule)
    capability = _capability(given, shelf, rule)
    settling = _settling(given, readings, shelf, result, rule)
    by_side = {bound.side: bound for bound in result.bounds}
    values: dict[str, Computed] = {
        "verdict": str(result.verdict) if bounds else None,
        "reason": _reason(result),
        "value": result.value,
        "standard_uncertainty": result.standard_uncertainty,
        "interval": result.interval if readings and not result.contradictions else None,
        "largest_that_goes": max(_thicknesses(readings, lower=True), default=None),
        "smallest_that_does_not_go": min(_thicknesses(readings, lower=False), default=None),
        "contradictory_answers": _contradictory(result),
        "explanations": _explanations(result),
        "what_would_settle": settling,
    }
    for side in ("lower", "upper"):
        bound = by_side.get(side)
        values[f"{side}_limit_probability"] = bound.probability if bound else None
        values[f"{side}_limit_verdict"] = str(bound.verdict) if bound else None
    return Found(
        values | _of_set(capability),
        (*_steps(given, readings, result), *_bound_steps(result, rule)),
        _cautions(result),
    )


def _readings(given: Given) -> list[BladeReading]:
    from fitwright.physics.metrology.readings import BladeAnswer, BladeReading, Drag

    drag = Drag("hand", given["drag"], given["drag_standard_uncertainty"])
    readings = []
    for number, each in enumerate(given["answers"] or (), start=1):
        blades = _tried(given, each, f"item {number} of answers")
        readings.append(BladeReading(f"answer {number}", _GAP, blades, BladeAnswer(each["answer"]), drag))
    return readings


def _tried(given: Given, each: Given, place: str) -> tuple[Blade, ...]:
    """The blade or the stack that was put in."""
    if each["thickness"] is None and each["stack"] is None:
        raise MissingInputError(place, "give thickness, or stack with the blades of one")
    if each["thickness"] is not None and each["stack"] is not None:
        raise InputError(place, "give either thickness, or stack with the blades of one")
    usual = given["blade_standard_uncertainty"]
    if each["standard_uncertainty"] is not None:
        usual = each["standard_uncertainty"]
    if each["thickness"] is not None:
        return (blade(each["thickness"], usual),)
    return tuple(blades_of(each["stack"], usual))


def _bounds(given: Given) -> list[Bound]:
    from fitwright.physics.metrology.conformity import Bound

    lower, upper = given["lower_limit"], given["upper_limit"]
    if lower is not None and upper is not None and lower > upper:
        raise InputError("lower_limit", "above the upper limit; swap them")
    found = [] if lower is None else [Bound("lower", lower)]
    return found if upper is None else [*found, Bound("upper", upper)]


def _shelf(given: Given) -> list[Blade]:
    return blades_of(given["blade_set"] or (), given["blade_standard_uncertainty"])


def _capability(given: Given, shelf: Sequence[Blade], rule: DecisionRule) -> SetCapability | None:
    from fitwright.physics.metrology.blade_sets import blade_set_can_prove

    lower, upper = given["lower_limit"], given["upper_limit"]
    if not shelf or (lower is None and upper is None):
        return None
    return blade_set_can_prove(lower, upper, shelf, rule)


def _of_set(capability: SetCapability | None) -> dict[str, Computed]:
    """What the set can prove, and the most useful blade that it lacks."""
    if capability is None:
        return dict.fromkeys(
            ("set_can_prove", "brackets", "missing_blade", "missing_blade_answer", "missing_blade_beside")
        )
    brackets = tuple(
        {
            "goes": None if one.goes is None else tuple(each.thickness for each in one.goes),
            "does_not_go": None
            if one.does_not_go is None
            else tuple(each.thickness for each in one.does_not_go),
        }
        for one in capability.brackets
    )
    missing = capability.missing[0] if capability.missing else None
    return {
        "set_can_prove": capability.can_prove,
        "brackets": brackets,
        "missing_blade": None if missing is None else (missing.thinnest, missing.thickest),
        "missing_blade_answer": None if missing is None else str(missing.answer),
        "missing_blade_beside": None if missing is None else missing.beside.thickness,
    }


def _settling(
    given: Given,
    readings: Sequence[BladeReading],
    shelf: Sequence[Blade],
    result: ChainResult,
    rule: DecisionRule,
) -> tuple[Row, ...] | None:
    """Blades of the set whose answer is likeliest to settle the bounds that are open."""
    from fitwright.physics.metrology.conformity import Bound, Verdict
    from fitwright.physics.metrology.settling import Known, what_settles

    is_open = [bound for bound in result.bounds if bound.verdict in (Verdict.UNPROVEN, Verdict.NOT_MEASURED)]
    if not shelf or result.contradictions or not is_open:
        return None
    known = Known(blade_readings=tuple(readings), window=_window(given, readings))
    rows: list[Row] = []
    for bound in is_open:
        for one in what_settles(Bound(bound.side, bound.limit), rule, known, shelf=shelf)[:_SHOWN]:
            blades = tuple(each.thickness for each in one.blades)
            rows.append({"limit": bound.side, "blades": blades, "likelihood": one.settles})
    return tuple(rows)


def _window(given: Given, readings: Sequence[BladeReading]) -> tuple[float, float]:
    """Where a gap may lie that nothing bounds: half the lower limit to twice the upper, past the blades."""
    limits = [each for each in (given["lower_limit"], given["upper_limit"]) if each is not None]
    goes, sticks = _thicknesses(readings, lower=True), _thicknesses(readings, lower=False)
    return min([0.5 * min(limits), *(0.5 * each for each in sticks)]), 2.0 * max([*limits, *goes])


def _thicknesses(readings: Sequence[BladeReading], *, lower: bool) -> list[float]:
    """Thickness of what went in, or of what did not."""
    from fitwright.physics.metrology.edges import Edge
    from fitwright.physics.metrology.readings import BladeAnswer

    return [
        Edge.of(one)[0].thickness for one in readings if (one.answer is not BladeAnswer.DOES_NOT_GO) is lower
    ]


def _reason(result: ChainResult) -> str | None:
    reasons = [bound.reason for bound in result.bounds if bound.reason is not None]
    return str(reasons[0]) if reasons else None


def _contradictory(result: ChainResult) -> tuple[str, ...] | None:
    return result.contradictions[0].readings if result.contradictions else None


def _explanations(result: ChainResult) -> tuple[Row, ...] | None:
    if not result.contradictions:
        return None
    return tuple({"text": each.text, "weight": each.weight} for each in result.contradictions[0].explanations)


def _cautions(result: ChainResult) -> tuple[str, ...]:
    if result.contradictions:
        return ("These answers cannot all be right: read again or leave one out; they are never averaged.",)
    return result.cautions


_CLAIMS = {
    "goes": "gap ≥ thickness",
    "goes freely": "gap ≥ thickness + drag",
    "drags": "thickness ≤ gap < thickness + drag",
    "does not go": "gap < thickness",
}


def _steps(given: Given, readings: Sequence[BladeReading], result: ChainResult) -> list[Step]:
    steps = [_answer(given, one) for one in readings]
    if readings:
        steps.append(
            Step(
                "Where the gap lies",
                "every gap that all answers allow, equally likely beforehand; open where nothing bounds it",
                (
                    PutIn("lower end", result.interval[0], "length"),
                    PutIn("upper end", result.interval[1], "length"),
                ),
                PutIn("value", result.value, "length"),
                "jcgm106_2012",
            )
        )
    return steps


def _answer(given: Given, one: BladeReading) -> Step:
    numbers = [PutIn("thickness", each.thickness, "length", "given") for each in one.blades]
    numbers += [
        PutIn("u of it", each.standard_uncertainty, "length", "given or assumed") for each in one.blades[:1]
    ]
    numbers += interface_numbers() if len(one.blades) > 1 else ()
    if "drag" in _CLAIMS[one.answer]:
        numbers.append(PutIn("drag", one.drag.value, "length", given.origin("drag")))
    return Step(f"{one.key}: {one.answer}", _CLAIMS[one.answer], tuple(numbers))


def _bound_steps(result: ChainResult, rule: DecisionRule) -> list[Step]:
    return [_bound_step(bound, rule) for bound in result.bounds]


def _bound_step(bound: BoundResult, rule: DecisionRule) -> Step:
    sign = "≥" if bound.side == "lower" else "≤"
    return Step(
        f"The {bound.side} limit",
        f"P(gap {sign} limit); within from {rule.within:g} on, outside up to {rule.outside:g}",
        (
            PutIn("limit", bound.limit, "length", "given"),
            PutIn("probability", bound.probability, "ratio"),
        ),
        PutIn("verdict", str(bound.verdict)),
        "jcgm106_2012",
    )


_ANSWER = Group(
    (
        Input("thickness", THICKNESS, "thickness of the blade that was tried", usual=True),
        Input("stack", Several(BLADE), "the blades that were tried together, in place of thickness"),
        Input("standard_uncertainty", UNCERTAINTY, "standard uncertainty of the blade, where it has its own"),
        Input(
            "answer",
            Choice(("goes", "goes freely", "drags", "does not go")),
            "what the blade did: goes, goes freely, drags or does not go",
            required=True,
        ),
    ),
    short=r"(?P<thickness>.+?) (?P<answer>goes freely|goes|drags|does not go)",
    example="0.05 mm goes",
)

SUM = Sum(
    name="blades",
    words=("feeler gauges", "feeler gages", "go and no go", "lash", "ring gap", "end float"),
    title="Feeler blades in a gap",
    text="Where a gap lies that blades were tried in, whether its limits are proven, what a set can prove.",
    inputs=(
        Input(
            "answers",
            Several(_ANSWER, least=0),
            "the blades that were tried and what each did, in any order",
            usual=True,
        ),
        Input("lower_limit", Amount("length", least=0.0), "smallest gap allowed", usual=True),
        Input("upper_limit", THICKNESS, "largest gap allowed", usual=True),
        DEFAULT_BLADE_UNCERTAINTY,
        Input(
            "drag",
            UNCERTAINTY,
            "how much wider than a blade a gap is before it goes freely",
            default="0.003 mm",
        ),
        Input(
            "drag_standard_uncertainty", UNCERTAINTY, "standard uncertainty of that drag", default="0.002 mm"
        ),
        Input(
            "required_probability",
            Amount("ratio", above=0.5, most=0.9999),
            "probability from which on a limit counts as proven",
            default=0.95,
        ),
        Input(
            "blade_set",
            Several(BLADE),
            "the blades at hand: says what they can prove, and what would settle it",
            usual=True,
        ),
    ),
    outputs=(
        Output("verdict", "within, outside, unproven or not measured; null without limits", leads=True),
        Output("reason", "why it is unproven"),
        Output(
            "value",
            "best value of the gap; null where blades bound it on one side only",
            "length",
            leads=True,
        ),
        Output("standard_uncertainty", "of that value", "length"),
        Output("interval", "95 % interval; null where nothing bounds an end", "length", leads=True),
        Output("largest_that_goes", "thickness of the thickest that goes", "length"),
        Output("smallest_that_does_not_go", "thickness of the thinnest that does not go", "length"),
        Output("lower_limit_probability", "probability that the gap is at least the lower limit", "ratio"),
        Output("lower_limit_verdict", "verdict on the lower limit"),
        Output("upper_limit_probability", "probability that the gap is at most the upper limit", "ratio"),
        Output("upper_limit_verdict", "verdict on the upper limit"),
        Output("contradictory_answers", "answers that cannot all be right"),
        Output(
            "explanations",
            "what may have happened, the weightiest first",
            columns=(Output("text", "what"), Output("weight", "share of this explanation", "ratio")),
        ),
        Output("set_can_prove", "whether the set can prove these limits of any gap at all"),
        Output(
            "brackets",
            "pairs of the set that prove the limits if the first goes and the second does not",
            columns=(
                Output("goes", "blades that have to go", "length"),
                Output("does_not_go", "blades that must not go", "length"),
            ),
        ),
        Output("missing_blade", "thinnest and thickest blade that would make the limits provable", "length"),
        Output("missing_blade_answer", "what that blade would have to do"),
        Output("missing_blade_beside", "the blade of the set that gives the other answer", "length"),
        Output(
            "what_would_settle",
            "blades of the set likeliest to settle what is open, every gap in reach being equally likely",
            columns=(
                Output("limit", "which limit"),
                Output("blades", "what to put in", "length"),
                Output("likelihood", "that the answer settles it", "ratio"),
            ),
        ),
    ),
    compute=_compute,
    source="jcgm106_2012",
    example={
        "answers": [
            {"thickness": "0.06 mm", "answer": "goes"},
            {"thickness": "0.07 mm", "answer": "does not go"},
        ],
        "lower_limit": "0.040 mm",
        "upper_limit": "0.075 mm",
    },
)
