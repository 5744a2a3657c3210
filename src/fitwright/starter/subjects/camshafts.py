"""Camshafts: bearings, end float, straightness, timing."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.family import Family, numbered
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules

STATION = "camshafts"
TIMING = "timing"


def camshafts(plan: Plan) -> Section:
    """Journals, end float and run-out of each camshaft."""
    return Section(
        title="Camshafts",
        comment=(f"{plan.cam_bearings} bearings on each camshaft are assumed: correct the braces.",),
        stations=(
            StationBlock(
                id=STATION,
                title="Camshafts",
                eye_checks=(
                    ("turns", "Each camshaft turns freely with its caps tightened, valves out?"),
                    ("ramps", "Lift at 10 degrees off the base circle alike on all lobes of a kind?"),
                ),
            ),
        ),
        parts=(PartBlock(key=_name(plan), title=_title(plan), material="steel", family=_each(plan)),),
        dimensions=(*_journals(plan), *_whole(plan)),
        fits=(_clearance(plan), _end_float(plan)),
    )


def cam_timing(plan: Plan) -> Section:
    """Lobe centres of each camshaft."""
    both = plan.valve_train == "double overhead camshafts"
    return Section(
        title="Cam timing",
        comment=(
            "Opening and closing at the same lift, as degrees of the crank after top dead centre at overlap",
            "(before it: negative); their mean is the lobe centre. Top dead centre by a positive stop.",
        ),
        stations=(
            StationBlock(
                id=TIMING,
                title="Cam timing",
                caution="Turn by hand only, always the running way; stop at the first resistance.",
                eye_checks=(("marks", "Timing marks photographed with cylinder 1 at top dead centre?"),),
            ),
        ),
        dimensions=_events(plan),
        fits=(
            FitBlock(
                key=f"{_name(plan)}.lobe_centre",
                title=f"{_title(plan)}, lobe centre" if both else f"{_title(plan)}, lobe centre, inlet 1",
                family=_each(plan),
                kind="chain",
                sense="angular",
                by_parts=f"0.5 * {_name(plan)}.opens + 0.5 * {_name(plan)}.closes",
                station=TIMING,
                critical=True,
                no_rule=f"within {1 if plan.competition else 2} deg of the cam maker's figure",
            ),
        ),
    )


def _name(plan: Plan) -> str:
    return ".".join(("camshaft", *(f"{{{number}}}" for number in range(len(plan.cam_groups)))))


def _title(plan: Plan) -> str:
    words = " ".join(f"{{{number}}}" for number in range(len(plan.cam_groups)))
    return f"Camshaft, {words}" if words else "Camshaft"


def _each(plan: Plan) -> Family:
    return Family(plan.cam_groups)


def _home(plan: Plan) -> str:
    return "block" if plan.valve_train in {"pushrod", "side valve"} else "head"


def _bearing(plan: Plan) -> tuple[Family, str]:
    """One member per camshaft bearing, and its name."""
    return Family(
        (*plan.cam_groups, numbered(plan.cam_bearings))
    ), f"{_name(plan)}.{{{len(plan.cam_groups)}}}"


def _journals(plan: Plan) -> tuple[DimensionBlock, ...]:
    family, name = _bearing(plan)
    number = f"{{{len(plan.cam_groups)}}}"
    rows = (
        ("journal", "journal", _name(plan), "bare", "outside micrometer"),
        ("bearing_bore", "bearing bore", _home(plan), "cam_caps_tightened", "bore gauge"),
    )
    return tuple(
        DimensionBlock(
            key=f"{name}.{feature}",
            title=f"{_title(plan)}, {what} {number}",
            family=family,
            part=part,
            sense="diametral",
            angles=("0", "45", "135") if feature == "bearing_bore" else ("0", "90"),
            condition=condition,
            instrument=(instrument,),
            station=STATION,
        )
        for feature, what, part, condition, instrument in rows
    )


def _whole(plan: Plan) -> tuple[DimensionBlock, ...]:
    name = _name(plan)
    rows = (
        ("run_out", "run-out, total indicator reading", "linear", rules.CAM_RUN_OUT),
        ("base_circle_run_out", "base circle run-out", "linear", rules.BASE_CIRCLE),
        ("axial_movement", "axial movement by dial", "axial", None),
    )
    return tuple(
        DimensionBlock(
            key=f"{name}.{feature}",
            title=f"{_title(plan)}, {what}",
            family=_each(plan),
            part=None if rule is None else name,
            through=(name, _home(plan)) if rule is None else (),
            sense=sense,
            condition="cam_caps_tightened" if rule is None else "bare",
            instrument=("dial indicator",),
            station=STATION,
            rules=() if rule is None else (rule.bounds(),),
        )
        for feature, what, sense, rule in rows
    )


def _clearance(plan: Plan) -> FitBlock:
    family, name = _bearing(plan)
    return FitBlock(
        key=f"{name}.running_clearance",
        title=f"{_title(plan)}, running clearance of bearing {{{len(plan.cam_groups)}}}",
        family=family,
        kind="running clearance",
        sense="diametral",
        by_parts=f"{name}.bearing_bore - {name}.journal",
        station=STATION,
        removes_metal=True,
        rules=(rules.CAM_JOURNAL.bounds(),),
    )


def _end_float(plan: Plan) -> FitBlock:
    return FitBlock(
        key=f"{_name(plan)}.end_float",
        title=f"{_title(plan)}, end float",
        family=_each(plan),
        kind="end float",
        sense="axial",
        fitted=f"{_name(plan)}.axial_movement",
        station=STATION,
        rules=(rules.CAM_END_FLOAT.bounds(),),
    )


def _events(plan: Plan) -> tuple[DimensionBlock, ...]:
    return tuple(
        DimensionBlock(
            key=f"{_name(plan)}.{event}",
            title=f"{_title(plan)}, valve of cylinder 1 {event}",
            family=_each(plan),
            through=("crank", _name(plan)) if plan.only == "all" else (_name(plan),),
            sense="angular",
            condition="assembled",
            instrument=("degree wheel", "dial indicator"),
            station=TIMING,
        )
        for event in ("opens", "closes")
    )
