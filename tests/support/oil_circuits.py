"""Circuits and operating points for tests of what is drawn: their figures are made up, and mean nothing."""

from __future__ import annotations

from dataclasses import replace
from math import pi
from typing import Any

from fitwright.assess.oil.results import Band, GroupFlow, NodeState, PathState, PointState, PumpState
from fitwright.model.amount import Written
from fitwright.model.circuit import (
    ELEMENTS,
    Circuit,
    Element,
    Filter,
    Jet,
    OilPath,
    PathKind,
    PumpKind,
    PumpStage,
    Relief,
    StagePurpose,
    StatedDisplacement,
    size_rules,
)

SPEED = Written("900 rpm", 900 * pi / 30, "rpm")
SIZE = Written("5 mm", 0.005, "mm")
GROUPS = {
    PathKind.BIG_END_FEED: "big ends",
    PathKind.FILTER: "filter",
    PathKind.JET: "jets",
    PathKind.CAM_BEARING: "camshafts",
    PathKind.FOLLOWER: "followers",
    PathKind.TURBOCHARGER: "turbocharger",
}


def element(kind: PathKind, *, valve: bool = False) -> Element:
    """What lies in a path of a kind, every size of it 5 mm."""
    made: Any = ELEMENTS[kind]
    every = set(made.__dataclass_fields__)
    optional = {name for name, each in made.__dataclass_fields__.items() if each.default is None}
    sizes = {name: SIZE for name in size_rules(made) if name in every - optional}
    if made in {Jet, Filter} and valve:
        sizes["opening_pressure" if made is Jet else "bypass_opening_pressure"] = SIZE
    found: Element = made(**sizes)
    return found


def path(
    name: str,
    kind: PathKind,
    start: str,
    end: str,
    *,
    title: str = "",
    group: str = "",
    count: int = 1,
    family: str | None = None,
    valve: bool = False,
) -> OilPath:
    """A path."""
    title = title or name.replace(".", " ").replace("_", " ").capitalize()
    group = group or GROUPS.get(kind, "passages")
    return OilPath(name, title, kind, start, end, element(kind, valve=valve), group, count, family)


def pump(name: str, start: str | None, end: str | None, title: str = "Oil pump") -> PumpStage:
    """A stage of a pump; one without nodes scavenges."""
    purpose = StagePurpose.PRESSURE if start else StagePurpose.SCAVENGE
    rotors = StatedDisplacement(Written("12 cc/rev", 1.9e-6, "cc/rev"))
    return PumpStage(name, title, PumpKind.STATED, rotors, 1.0, purpose, start, end)


def relief(name: str, start: str, end: str, title: str = "Relief valve") -> Relief:
    """A relief valve."""
    return Relief(
        name, title, start, end, spring_rate=SIZE, preload_length=SIZE, seat_diameter=SIZE, full_lift=SIZE
    )


def circuit(
    pumps: list[PumpStage], reliefs: list[Relief], paths: list[OilPath], gauge: str = "gallery"
) -> Circuit:
    """A circuit of parts."""
    return Circuit(
        gauge,
        SPEED,
        SPEED,
        (),
        {each.id: each for each in pumps},
        {each.id: each for each in reliefs},
        {each.id: each for each in paths},
    )


def bottom_end(mains: int, throws: dict[int, list[int]], gallery: str = "gallery") -> list[OilPath]:
    """Mains on a gallery, and the big ends that each main feeds."""
    paths = []
    for main in range(1, mains + 1):
        node = f"main_{main}"
        paths += [
            path(f"main_feed.{main}", PathKind.DRILLING, gallery, node, title=f"Main {main} feed"),
            path(f"main.{main}", PathKind.BEARING, node, "sump", title=f"Main {main}", group="mains"),
        ]
        for pin in throws.get(main, []):
            paths += [
                path(
                    f"pin_feed.{pin}",
                    PathKind.BIG_END_FEED,
                    node,
                    f"pin_{pin}",
                    title=f"Drilling to pin {pin}",
                ),
                path(
                    f"big_end.{pin}",
                    PathKind.BEARING,
                    f"pin_{pin}",
                    "sump",
                    title=f"Big end {pin}",
                    group="big ends",
                ),
            ]
    return paths


def five_cylinder() -> Circuit:
    """A wet sump, one gallery, a head with two camshafts, jets, turbocharger and tensioner."""
    paths = [
        path("pick_up", PathKind.STRAINER, "sump", "inlet", title="Oil pickup"),
        path("filter", PathKind.FILTER, "outlet", "filtered", title="Filter", valve=True),
        path("cooler", PathKind.COOLER, "filtered", "cooled", title="Cooler and its lines", group="cooler"),
        path("riser", PathKind.DRILLING, "cooled", "gallery", title="Drilling to the main gallery"),
        *bottom_end(6, {1: [1], 2: [2], 3: [3], 4: [4], 5: [5]}),
        path("jets", PathKind.JET, "gallery", "sump", title="Piston jets", count=5, valve=True),
        path("head_restrictor", PathKind.RESTRICTOR, "gallery", "head", title="Head restrictor"),
        *(
            path(
                f"{side}_cam.{n}",
                PathKind.CAM_BEARING,
                "head",
                "sump",
                title=f"{side.capitalize()} cam {n}",
                family=f"{side}_cam",
            )
            for side in ("inlet", "exhaust")
            for n in range(1, 8)
        ),
        path("followers", PathKind.FOLLOWER, "head", "sump", title="Hydraulic followers", count=20),
        path("turbo", PathKind.TURBOCHARGER, "gallery", "sump", title="Turbocharger"),
        path("tensioner", PathKind.TENSIONER, "gallery", "sump", title="Chain tensioner", group="tensioner"),
    ]
    return circuit([pump("pump", "inlet", "outlet")], [relief("relief", "outlet", "sump")], paths)


def air_cooled_vee() -> Circuit:
    """A dry sump with two pressure stages, relief back to the inlet, a filter with a way round it, a loop."""
    paths = [
        path("tank_line", PathKind.PIPE, "sump", "inlet", title="Line from the tank"),
        path("filter", PathKind.FILTER, "outlet", "filtered", title="Filter"),
        path("way_round", PathKind.RESTRICTOR, "outlet", "filtered", title="Way round the filter"),
        path("left_riser", PathKind.PIPE, "filtered", "left", title="Left riser"),
        path("right_riser", PathKind.PIPE, "filtered", "right", title="Right riser"),
        path("cross", PathKind.PIPE, "left", "right", title="Cross line"),
        *bottom_end(3, {1: [1, 2], 2: [3, 4]}, "left"),
        *(
            path(f"rocker.{n}", PathKind.ANNULAR_LEAK, "right", "sump", title=f"Rocker {n}", group="rockers")
            for n in (1, 2, 4)
        ),
        path("cam_slot", PathKind.SLOT, "right", "sump", title="Slot at the cam gear"),
        path("meeting", PathKind.INTERSECTION, "right", "far", title="Where drillings meet"),
        path("far_leak", PathKind.ANNULAR_LEAK, "far", "sump", title="Distributor shaft", group="leaks"),
        path("hydraulic", PathKind.PIPE, "servo", "sump", title="Return of the servo"),
    ]
    pumps = [
        pump("front", "inlet", "outlet", "Front stage"),
        pump("second", "sump", "servo", "Second stage"),
        pump("scavenge", None, None, "Scavenge stage"),
    ]
    return circuit(pumps, [relief("relief", "outlet", "inlet")], paths, gauge="filtered")


def long_chain(length: int = 14) -> Circuit:
    """A chain with a bearing at every node, longer than any page is wide; its gallery is in pieces."""
    paths = [path("pick_up", PathKind.PIPE, "sump", "n0")]
    for n in range(1, length):
        paths += [
            path(f"piece.{n}", PathKind.DRILLING, f"n{n}", f"n{n + 1}", title=f"Gallery piece {n}"),
            path(f"off.{n}", PathKind.DRILLING, f"n{n + 1}", f"b{n}", title=f"Feed {n}"),
            path(f"main.{n}", PathKind.BEARING, f"b{n}", "sump", title=f"Main {n}"),
        ]
    return circuit([pump("pump", "n0", "n1")], [relief("relief", "n1", "sump")], paths, gauge=f"n{length}")


def everything() -> Circuit:
    """One path of every kind on one gallery."""
    paths = [
        path("pick_up", PathKind.STRAINER, "sump", "inlet"),
        path("riser", PathKind.PIPE, "outlet", "gallery"),
        *(
            path(f"a_{kind.name.lower()}", kind, "gallery", "sump", title=kind.value, group=kind.value)
            for kind in PathKind
        ),
        path("jet_with_valve", PathKind.JET, "gallery", "sump", valve=True, group="valves"),
        path("filter_with_bypass", PathKind.FILTER, "gallery", "sump", valve=True, group="valves"),
    ]
    return circuit([pump("pump", "inlet", "outlet")], [relief("relief", "outlet", "sump")], paths)


CIRCUITS = {
    "five cylinder": five_cylinder,
    "air-cooled vee": air_cooled_vee,
    "long chain": long_chain,
    "everything": everything,
}


def point_of(circuit: Circuit, *, converged: bool = True, shut: tuple[str, ...] = ()) -> PointState:
    """A made-up operating point: pressures fall from node to node, flows lie between 0.05 and 45 L/min."""

    def band(value: float) -> Band:
        return Band(value, 0.94 * value, 1.05 * value) if converged else Band(None)

    nodes = tuple(
        NodeState(node, node.replace("_", " "), band(4.4e5 - 1.3e4 * n), node == circuit.gauge)
        for n, node in enumerate(circuit.nodes)
        if node != "sump"
    )
    joined = list(circuit.connections())
    paths = tuple(
        PathState(
            part.id,
            part.title,
            getattr(part, "kind", "relief"),
            getattr(part, "group", ""),
            part.from_node or "sump",
            part.to_node or "sump",
            getattr(part, "count", 1),
            Band(0.0) if part.id in shut and converged else band(45.0 / 6e4 / (1.0 + 0.9 * n)),
            part.id in shut,
        )
        for n, part in enumerate(joined)
    )
    gauge = next((node.gauge_pressure for node in nodes if node.is_gauge), Band(None))
    return PointState(
        "Hot idle", SPEED.si, 383.15, converged, gauge, nodes, paths, *_rest(converged=converged)
    )


def _rest(*, converged: bool) -> tuple[tuple[GroupFlow, ...], tuple[()], tuple[PumpState, ...]]:
    flows = {
        "mains": 2.8,
        "big ends": 0.9,
        "camshafts": 3.3,
        "followers": 0.7,
        "jets": 6.4,
        "turbocharger": 1.9,
    }
    budget = tuple(
        GroupFlow(
            name, Band(flow / 6e4, 0.9 * flow / 6e4, 1.12 * flow / 6e4) if converged else Band(None), None
        )
        for name, flow in flows.items()
    )
    pumped = PumpState(
        id="pump",
        title="Oil pump",
        displaced=40.7 / 6e4,
        leakage=2.9 / 6e4,
        delivered=37.8 / 6e4,
        relieved=21.8 / 6e4,
        reserve=21.8 / 6e4,
        fill=1.0,
        inlet_pressure=-8e3,
        drive_torque=1.4,
    )
    if not converged:
        pumped = replace(
            pumped, displaced=None, leakage=None, delivered=None, relieved=None, reserve=None, fill=None
        )
    return budget, (), (pumped,)
