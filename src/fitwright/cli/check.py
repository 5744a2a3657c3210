"""`fitwright check`: what the readings of a build prove, and what would settle the rest."""

from __future__ import annotations

import json
import sys
from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.assess.results import Assessment, State, Verdict
from fitwright.cli.errors import FOUND, OK, UsageError
from fitwright.cli.report import print_report
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened
from fitwright.cli.working import print_working
from fitwright.formats.assessment import as_json
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
) -> int:
    """Say what the readings of a build prove, fit by fit.

    Example: fitwright check corrie-five --data demo --state as-received
    """
    with opened(data) as shop:
        if working is not None:
            print_working(shop, build, _one(state), working, family_of(shop, build, units), as_json=as_json_)
            return OK
        found = _assessments(shop, build, state)
        if as_json_:
            _write_json(shop, build, found)
        else:
            print_report(shop, build, found, family_of(shop, build, units), only)
        return _exit_code(found[-1], fail_on)


def _one(state: str) -> State:
    if state == "both":
        raise UsageError("--working shows one state: say --state as-received or --state current.")
    return State(state)


def _assessments(shop: Shop, build: str, state: str) -> list[Assessment]:
    states = [State.AS_RECEIVED, State.CURRENT] if state == "both" else [State(state)]
    return [shop.assessment(build, each) for each in states]


def _write_json(shop: Shop, build: str, found: list[Assessment]) -> None:
    documents = [as_json(each, shop.assessor(build, each.state).settling) for each in found]
    json.dump(documents[0] if len(documents) == 1 else documents, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


def _exit_code(found: Assessment, fail_on: str | None) -> int:
    if fail_on is None:
        return OK
    failing = {Verdict.OUTSIDE}
    if fail_on == "unproven":
        failing |= {Verdict.UNPROVEN, Verdict.NOT_MEASURED}
    return FOUND if any(each.verdict in failing for each in found.verdicts.values()) else OK
