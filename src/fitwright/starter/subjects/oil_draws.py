"""What draws oil from the gallery: mains, big ends, camshafts, valve gear, jets. All sizes assumed."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.starter.assumed import Assumed
from fitwright.starter.blocks import TableBlock, Value
from fitwright.starter.family import ONE, Family
from fitwright.starter.plan import Plan
from fitwright.starter.subjects.oil_supply import PATHS


def draws(plan: Plan) -> tuple[TableBlock, ...]:
    """All that this layout has."""
    bearings = (*_mains(plan), *_big_ends(plan)) if plan.plain else _rolling(plan)
    return (*bearings, *_camshafts(plan), *_valve_gear(plan), *_others(plan))


def _path(
    key: str, values: dict[str, Value], family: Family = ONE, *, comment: tuple[str, ...] = ()
) -> TableBlock:
    return TableBlock(section=PATHS, key=key, values=values, family=family, comment=comment)


def _drilling(title: str, start: str, end: str, diameter: str, length: str) -> dict[str, Value]:
    return {
        "title": title,
        "kind": "drilling",
        "from": start,
        "to": end,
        "diameter": diameter,
        "length": length,
    }


def _mains(plan: Plan) -> tuple[TableBlock, ...]:
    assumed = Assumed(plan)
    journal = plan.main_journal
    feed = _drilling("Gallery to main {0}", "gallery", "main.{0}.groove", assumed.mm(6.0), assumed.mm(45.0))
    bearing: dict[str, Value] = {
        "title": "Main {0}",
        "kind": "bearing",
        "from": "main.{0}.groove",
        "to": "sump",
        "group": "mains",
        "diametral_clearance": "main.{0}.running_clearance",
        "journal_diameter": "main.{0}.journal",
        "length": assumed.length((0.38 if plan.shells else 0.75) * journal),
        "feed": "half groove" if plan.shells else "full groove",
        "groove_width": assumed.length(0.075 * journal),
    }
    return (
        _path("main.{0}.drilling", feed, plan.each_main),
        _path("main.{0}.bearing", bearing, plan.each_main),
    )


def feeding_main(plan: Plan, rod: int) -> int:
    """The main that feeds the pin of a rod: pins and mains taken in order from the nose."""
    pin = (rod - 1) // plan.rods_per_pin
    last_pin = max(1, (plan.cylinders - 1) // plan.rods_per_pin)
    mains = min(plan.mains, last_pin + 1)
    return 1 + pin * (mains - 1) // last_pin


def _big_ends(plan: Plan) -> Iterator[TableBlock]:
    assumed = Assumed(plan)
    fed: dict[int, list[str]] = {}
    for rod in range(1, plan.cylinders + 1):
        fed.setdefault(feeding_main(plan, rod), []).append(str(rod))
    for main, rods in fed.items():
        feed = _crank_drilling(plan, main)
        comment = ("Which main feeds which pin is assumed: correct it.",) if main == 1 else ()
        yield _path("rod.{0}.drilling", feed, Family((tuple(rods),)), comment=comment)
    bearing: dict[str, Value] = {
        "title": "Big end {0}",
        "kind": "bearing",
        "from": "rod.{0}",
        "to": "sump",
        "group": "big ends",
        "diametral_clearance": "rod.{0}.running_clearance",
        "journal_diameter": "rod.{0}.pin",
        "length": assumed.length(0.42 * plan.rod_journal),
        "feed": "hole",
        "hole_diameter": assumed.mm(5.0),
    }
    yield _path("rod.{0}.bearing", bearing, plan.each_cylinder)


def _crank_drilling(plan: Plan, main: int) -> dict[str, Value]:
    assumed = Assumed(plan)
    entry = 0.5 * plan.main_journal
    leaves = 0.5 * plan.stroke + 0.1 * plan.rod_journal
    return {
        "title": f"Main {main} to the pin of rod {{0}}",
        "kind": "big-end feed",
        "from": f"main.{main}.groove",
        "to": "rod.{0}",
        "diameter": assumed.mm(5.0),
        "length": assumed.length(0.9 * (entry + leaves)),
        "inlet_radius": assumed.length(entry),
        "innermost_radius": assumed.length(0.6 * min(entry, leaves)),
        "outlet_radius": assumed.length(leaves),
        "feed_arc": "180 deg" if plan.shells else "360 deg",
    }


def _rolling(plan: Plan) -> tuple[TableBlock, ...]:
    mm = Assumed(plan).mm
    rows = (
        ("main.{0}.oil_hole", "Metered hole to main {0}", "mains", 1.2, plan.each_main),
        ("rod.{0}.oil_hole", "Metered feed of big end {0}", "big ends", 1.5, plan.each_cylinder),
    )
    return tuple(
        _path(
            key,
            {
                "title": title,
                "kind": "restrictor",
                "from": "gallery",
                "to": "sump",
                "group": group,
                "diameter": mm(diameter),
                "length": mm(4.0),
            },
            family,
        )
        for key, title, group, diameter, family in rows
    )


def _camshafts(plan: Plan) -> tuple[TableBlock, ...]:
    """Bearings in the head behind a riser with a restrictor, or in the block from the gallery."""
    if plan.two_stroke:
        return ()
    assumed = Assumed(plan)
    name = ".".join(("camshaft", *(f"{{{number}}}" for number in range(len(plan.cam_groups) + 1))))
    words = " ".join(f"{{{number}}}" for number in range(len(plan.cam_groups) + 1))
    family = Family((*plan.cam_groups, tuple(str(each) for each in range(1, plan.cam_bearings + 1))))
    bearing: dict[str, Value] = {
        "title": f"Camshaft bearing, {words}",
        "kind": "cam bearing",
        "from": "head" if plan.overhead_cams else "gallery",
        "to": "sump",
        "diametral_clearance": f"{name}.running_clearance",
        "journal_diameter": assumed.mm(26.0 if plan.overhead_cams else 45.0),
        "length": assumed.mm(18.0),
        "feed": "hole",
        "hole_diameter": assumed.mm(2.5),
    }
    return (*_riser(plan), _path(f"{name}.bearing", bearing, family))


def _riser(plan: Plan) -> tuple[TableBlock, ...]:
    """One riser for each bank, all banks under one node."""
    if not (plan.overhead_cams or plan.rockers):
        return ()
    mm = Assumed(plan).mm
    banks = max(1, len(plan.banks))
    count: dict[str, Value] = {"count": banks} if banks > 1 else {}
    riser = {**_drilling("Riser to the head", "gallery", "riser", mm(8.0), mm(180.0)), **count}
    metered: dict[str, Value] = {
        "title": "Restrictor of the head",
        "kind": "restrictor",
        "from": "riser",
        "to": "head",
        "diameter": mm(1.8 if plan.overhead_cams else 1.5),
        "length": mm(4.0),
        **count,
    }
    return (_path("riser", riser), _path("head_restrictor", metered))


def _valve_gear(plan: Plan) -> Iterator[TableBlock]:
    hydraulic = plan.valve_adjustment == "hydraulic"
    if plan.rockers:
        yield _rocker_holes(plan)
    followers = plan.followers and (plan.overhead_cams or hydraulic)
    for side in plan.sides:
        if plan.rockers:
            yield _sliding(plan, side, "rocker", "bush_clearance", "annular leak", (16.0, 12.0))
        if followers:
            yield _sliding(plan, side, "follower", "clearance", "follower", (30.0, 9.0))


def _rocker_holes(plan: Plan) -> TableBlock:
    values: dict[str, Value] = {
        "title": "Oil holes in the rockers",
        "kind": "restrictor",
        "from": "head",
        "to": "sump",
        "count": sum(len(plan.valve_letters(side)) or 1 for side in plan.sides) * plan.cylinders,
        "group": "rockers",
        "diameter": Assumed(plan).mm(1.0),
        "length": Assumed(plan).mm(6.0),
    }
    comment = ("Where the rockers have holes for pushrod cups or cams.",)
    return _path("rocker_holes", values, comment=comment)


def _sliding(plan: Plan, side: str, what: str, fit: str, kind: str, usual: tuple[float, float]) -> TableBlock:
    """Rockers on their shaft, or followers in their bores."""
    mm = Assumed(plan).mm
    name = f"{what}.{plan.valve_tail(side)}"
    diameter, length = usual
    above = what == "rocker" or plan.overhead_cams
    values: dict[str, Value] = {
        "title": f"{plan.valve_title(side)}, {what}",
        "kind": kind,
        "from": "head" if above else "gallery",
        "to": "sump",
        "group": f"{what}s",
        "diametral_clearance": f"{name}.{fit}",
        "diameter": mm(diameter),
        "length": mm(length),
        "feed_diameter": mm(2.0),
    }
    return _path(name, values, plan.each_valve(side))


def _others(plan: Plan) -> Iterator[TableBlock]:
    mm = Assumed(plan).mm
    if plan.piston_jets:
        jet: dict[str, Value] = {
            "title": "Piston jet {0}",
            "kind": "jet",
            "from": "gallery",
            "to": "sump",
            "diameter": mm(1.2),
            "opening_pressure": "1.8 bar",
            "full_pressure": "2.3 bar",
        }
        yield _path("jet.{0}", jet, plan.each_cylinder)
    if plan.aspiration == "turbocharged":
        feed: dict[str, Value] = {
            "title": "Turbocharger feed",
            "kind": "turbocharger feed",
            "from": "gallery",
            "to": "sump",
            "restrictor_diameter": mm(1.3),
            "line_diameter": mm(5.0),
            "line_length": mm(500.0),
        }
        yield _path("turbocharger", feed)
    if plan.cam_drive == "chain" and not plan.two_stroke:
        tensioner: dict[str, Value] = {
            "title": "Chain tensioner",
            "kind": "tensioner",
            "from": "gallery",
            "to": "sump",
            "diametral_clearance": mm(0.04),
            "diameter": mm(14.0),
            "length": mm(25.0),
        }
        yield _path("tensioner", tensioner, comment=("Where the tensioner is pressed by oil.",))
    if plan.pump == "camshaft-driven":
        spray: dict[str, Value] = {
            "title": "Jet on the skew gears",
            "kind": "jet",
            "from": "gallery",
            "to": "sump",
            "group": "drives",
            "diameter": mm(0.9),
        }
        yield _path("skew_jet", spray)
