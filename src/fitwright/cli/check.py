"""`fitwright check`: what the readings of a build prove, and what would settle the rest."""

from __future__ import annotations

import json
import sys
from typing import Annotated, Any, Literal

from cyclopts import Parameter

from fitwright.assess.results import Assessment, State, Verdict
from fitwright.cli.errors import FOUND, OK, UsageError
from fitwright.cli.report import print_report
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened
from fitwright.cli.working import print_working
from fitwright.drawing.oil_figures import OilReader
from fitwright.formats.assessment import as_json
from fitwright.units.families import Family
from fitwright.wiring import Shop


def check(
    build: str,
    /,
    *,
    data: Data = DEFAULT_DATA,
    state: Annotated[
        Literal["as-received", "current", "both"],
        Parameter(help="Which readings count: before any rework, the latest, or both side by side."),
    ] = "current",
    as_json_: Annotated[bool, Parameter(name="--json", negative="", help="Print JSON in SI units.")] = False,
    fail_on: Annotated[
        Literal["outside", "unproven"] | None,
        Parameter(help="Exit with 1 if anything is outside; unproven includes outside and not measured."),
    ] = None,
    working: Annotated[
        str | None, Parameter(help="Show the whole working of one fit, from its readings on.")
    ] = None,
    units: Annotated[Literal["mm", "inch"] | None, Parameter(help="Units to show.")] = None,
    only: Annotated[
        Literal["outside", "unproven", "not-measured", "within"] | None,
        Parameter(help="Show only fits with this verdict."),
    ] = None,
    oil: Annotated[
        bool,
        Parameter(
            name="--oil",
            negative="--no-oil",
            help="Predict the oil system too; left out with --only and --working.",
        ),
    ] = True,
) -> int:
    """Say what the readings of a build prove, fit by fit, and what oil pressure follows from them.

    Example: fitwright check corrie-five --data demo --state as-received
    """
    with opened(data) as shop:
        if working is not None:
            print_working(shop, build, _one(state), working, family_of(shop, build, units), as_json=as_json_)
            return OK
        found = _assessments(shop, build, state)
        family, oil = family_of(shop, build, units), oil and only is None
        if as_json_:
            _write_json(shop, build, found, family, oil=oil)
        else:
            print_report(shop, build, found, family, only)
            if only is None:
                _print_work(shop, build)
            if oil:
                _print_oil(shop, build, found[-1].state, family)
        return _exit_code(found[-1], fail_on)


def _one(state: str) -> State:
    if state == "both":
        raise UsageError("--working shows one state: say --state as-received or --state current.")
    return State(state)


def _assessments(shop: Shop, build: str, state: str) -> list[Assessment]:
    states = [State.AS_RECEIVED, State.CURRENT] if state == "both" else [State(state)]
    return [shop.assessment(build, each) for each in states]


def _print_work(shop: Shop, build: str) -> None:
    """The order of work in short, where the sheet has one."""
    if not shop.bench(build).sheet.steps:
        return
    from fitwright.cli.console import console
    from fitwright.cli.oil_lines import heading
    from fitwright.cli.work_lines import check_lines

    out = console()
    heading(out, "Order of work")
    for line in check_lines(shop.assembly(build), build):
        out.print(line)


def _work_as_json(shop: Shop, build: str) -> dict[str, Any]:
    if not shop.bench(build).sheet.steps:
        return {}
    from fitwright.formats.standing import work_as_json

    return {"work": work_as_json(shop.assembly(build))}


def _print_oil(shop: Shop, build: str, state: State, family: Family) -> None:
    """The oil system in short, where the sheet has a circuit."""
    if shop.bench(build).sheet.circuit is None:
        return
    from fitwright.cli.console import console
    from fitwright.cli.oil_lines import print_section

    print_section(console(), shop.oil(build, state).banded(), build, state, OilReader(family))


def _oil_as_json(shop: Shop, build: str, state: State, family: Family) -> dict[str, Any] | None:
    if shop.bench(build).sheet.circuit is None:
        return None
    from fitwright.cli.oil_asked import AskedOil
    from fitwright.formats.oil_prediction import oil_as_json

    asked = AskedOil.of(shop, build, state, family)
    return oil_as_json(asked.desk.banded(), asked.rests_on)


def _write_json(shop: Shop, build: str, found: list[Assessment], family: Family, *, oil: bool) -> None:
    documents = [
        as_json(
            each,
            shop.assessor(build, each.state).settling,
            _oil_as_json(shop, build, each.state, family) if oil else None,
        )
        | (_work_as_json(shop, build) if each.state is State.CURRENT else {})
        for each in found
    ]
    json.dump(documents[0] if len(documents) == 1 else documents, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


def _exit_code(found: Assessment, fail_on: str | None) -> int:
    if fail_on is None:
        return OK
    failing = {Verdict.OUTSIDE}
    if fail_on == "unproven":
        failing |= {Verdict.UNPROVEN, Verdict.NOT_MEASURED}
    return FOUND if any(each.verdict in failing for each in found.verdicts.values()) else OK
