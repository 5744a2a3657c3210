"""Ways of the oil: pumps and relief valves where they belong, every node between a pump and the sump."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Final

from fitwright.model.circuit import SUMP, Circuit, OilPath, PumpStage, Relief, StagePurpose
from fitwright.model.engine import Layout
from fitwright.model.problem import Path, Problem, meant

_JOIN: Final = 'write a node that is joined to pump and sump, add the missing path, or write "sump"'


def check_oil_ways(circuit: Circuit, layout: Layout) -> Iterator[Problem]:
    """Problems of nodes, pump stages and relief valves."""
    yield from _check_stages(circuit, layout)
    for section, each in _connections(circuit):
        if each.from_node is not None and each.from_node == each.to_node:
            what = f"it leads from {each.from_node} back to {each.from_node}"
            yield Problem(("circuit", section, each.id, "to"), what, "write the node that it leads to")
    yield from _check_nodes(circuit)
    if circuit.gauge not in circuit.nodes:
        mend = meant(circuit.gauge, circuit.nodes) or "write a node that a path names"
        yield Problem(("circuit", "gauge"), f'no path names the node "{circuit.gauge}"', mend)
    yield from _check_reliefs(circuit)


def _check_stages(circuit: Circuit, layout: Layout) -> Iterator[Problem]:
    pressure = [each for each in circuit.pumps.values() if each.purpose is StagePurpose.PRESSURE]
    scavenge = [each for each in circuit.pumps.values() if each.purpose is StagePurpose.SCAVENGE]
    if not pressure:
        mend = 'write [circuit.pumps.pressure] with kind, from = "sump" and to'
        yield Problem(("circuit",), "an oil circuit without a pump that feeds it", mend)
    for stage in circuit.pumps.values():
        yield from _check_ends(stage)
    if layout.pump_stages != len(scavenge):
        what = f"{len(scavenge)} scavenge stages here, and {layout.pump_stages} in the engine's layout"
        mend = "write the same number: pump_stages there, a stage of purpose scavenge each here"
        yield Problem(("circuit",), what, mend)


def _check_ends(stage: PumpStage) -> Iterator[Problem]:
    path: Path = ("circuit", "pumps", stage.id)
    ends = {"from": stage.from_node, "to": stage.to_node}
    for key, node in ends.items():
        if stage.purpose is StagePurpose.PRESSURE and node is None:
            yield Problem(path, f'a pressure stage without "{key}"', f'write {key} = "..." (a node)')
        if stage.purpose is StagePurpose.SCAVENGE and node is not None:
            what = "a scavenge stage has no nodes: it is counted in the ratio of displacements only"
            yield Problem((*path, key), what, "leave it out")


def _connections(circuit: Circuit) -> Iterator[tuple[str, PumpStage | Relief | OilPath]]:
    sections = (("pumps", circuit.pumps), ("reliefs", circuit.reliefs), ("paths", circuit.paths))
    for section, entries in sections:
        yield from ((section, each) for each in entries.values())


def _check_nodes(circuit: Circuit) -> Iterator[Problem]:
    """Every node must be joined to the sump by paths and relief valves, and to a pump short of the sump."""
    ways = [each for _, each in _connections(circuit) if not isinstance(each, PumpStage)]
    drained = reached({SUMP}, ways)
    fed = reached(set(_pump_ends(circuit)) - {SUMP}, ways, past=frozenset({SUMP}))
    touched = Counter(node for each in circuit.connections() for node in (each.from_node, each.to_node))
    for section, each in _connections(circuit):
        for key, node in (("from", each.from_node), ("to", each.to_node)):
            if node is None or node == SUMP:
                continue
            if node not in fed:
                what = f'no way leads from a pump to the node "{node}"'
            elif node not in drained:
                what = f'no way leads from the node "{node}" to the sump'
            elif touched[node] == 1 and node != circuit.gauge:
                what = f'nothing else is joined to the node "{node}", so no oil flows here'
            else:
                continue
            mend = meant(node, [other for other in circuit.nodes if other != node])
            yield Problem(("circuit", section, each.id, key), what, mend or _JOIN)


def _pump_ends(circuit: Circuit) -> Iterator[str]:
    for stage in circuit.pumps.values():
        yield from (node for node in (stage.from_node, stage.to_node) if node is not None)


def reached(
    start: set[str], ways: Iterable[OilPath | Relief | PumpStage], *, past: frozenset[str] = frozenset()
) -> set[str]:
    """The nodes joined to these, either way round; `past` are nodes through which no way goes on."""
    beside: dict[str, set[str]] = {}
    for each in ways:
        if each.from_node is not None and each.to_node is not None:
            beside.setdefault(each.from_node, set()).add(each.to_node)
            beside.setdefault(each.to_node, set()).add(each.from_node)
    found, ahead = set(start), list(start)
    while ahead:
        node = ahead.pop()
        for other in beside.get(node, set()) if node not in past else ():
            if other not in found:
                found.add(other)
                ahead.append(other)
    return found


def _check_reliefs(circuit: Circuit) -> Iterator[Problem]:
    """One relief valve for each pressure stage, in what it feeds; or the stage says that it has none."""
    taken: set[str] = set()
    for stage in circuit.pumps.values():
        if stage.purpose is not StagePurpose.PRESSURE or stage.to_node is None:
            continue
        fed = reached({stage.to_node}, circuit.paths.values(), past=frozenset({SUMP}))
        own = [each for each in circuit.reliefs.values() if each.from_node in fed and each.id not in taken]
        taken.update(each.id for each in own[:1] if not stage.without_relief)
        yield from _check_relief_of(stage, own)
    left = [each for each in circuit.reliefs.values() if each.id not in taken]
    for relief in left if taken else ():
        what = f"a relief valve more than there are pressure stages ({', '.join(sorted(taken))} is there)"
        yield Problem(("circuit", "reliefs", relief.id), what, "leave one of them out", at_key=True)


def _check_relief_of(stage: PumpStage, own: list[Relief]) -> Iterator[Problem]:
    path: Path = ("circuit", "pumps", stage.id)
    if stage.without_relief and own:
        what = f"{own[0].id} relieves it, and it says that it has no relief valve"
        yield Problem((*path, "without_relief"), what, "leave one of the two out")
    if not stage.without_relief and not own:
        mend = "write [circuit.reliefs.an_id], or without_relief = true where there is none on purpose"
        yield Problem(path, "no relief valve belongs to this pressure stage", mend)
