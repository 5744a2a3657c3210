"""Checks of a whole sheet that need no file: everything that is wrong with it, all at once.

`references` that lead nowhere, `limits` that contradict themselves, `fits` whose chains mix what
cannot be added, `dimensions`, `stations`, the `engine` itself; `oils`, and of the oil circuit its sizes
(`oil_sizes`), the ways of the oil (`oil_ways`), its parts (`oil_parts`) and its `crank_train`; of the
assembly what its tables name (`work_references`), the groups (`tightening`) and the `steps`.
The paths of problems are those of the sheet format, with ids in place of families.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.model.checks.crank_train import check_crank_train
from fitwright.model.checks.dimensions import check_dimensions
from fitwright.model.checks.engine import check_engine
from fitwright.model.checks.fits import check_fits
from fitwright.model.checks.limits import check_limits
from fitwright.model.checks.oil_parts import check_oil_parts
from fitwright.model.checks.oil_sizes import check_oil_sizes
from fitwright.model.checks.oil_ways import check_oil_ways
from fitwright.model.checks.oils import check_oils
from fitwright.model.checks.references import check_references
from fitwright.model.checks.stations import check_stations
from fitwright.model.checks.steps import check_steps
from fitwright.model.checks.tightening import check_tightening
from fitwright.model.checks.work_references import check_work_references
from fitwright.model.problem import Problem
from fitwright.model.sheet import Sheet


def check(sheet: Sheet, *, also_known: Mapping[str, frozenset[str]] | None = None) -> tuple[Problem, ...]:
    """All problems of a sheet.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    also_known : mapping of str to frozenset of str, optional
        Ids by section that the sheet lacks and that may be referred to all the same, because what
        is wrong with them has been said already.

    Returns
    -------
    tuple of Problem
        Empty for a sound sheet.
    """
    return (
        *check_engine(sheet.engine),
        *check_references(sheet, also_known or {}),
        *check_dimensions(sheet),
        *check_limits(sheet),
        *check_fits(sheet),
        *check_stations(sheet),
        *check_oils(sheet),
        *_check_circuit(sheet, also_known or {}),
        *check_work_references(sheet, also_known or {}),
        *check_tightening(sheet),
        *check_steps(sheet),
    )


def _check_circuit(sheet: Sheet, also_known: Mapping[str, frozenset[str]]) -> Iterator[Problem]:
    if sheet.circuit is None:
        return
    yield from check_oil_sizes(sheet, sheet.circuit, also_known)
    if not any(also_known.get(f"circuit.{section}") for section in ("pumps", "reliefs", "paths")):
        yield from check_oil_ways(sheet.circuit, sheet.engine.layout)
    yield from check_oil_parts(sheet, sheet.circuit)
    if sheet.circuit.crank_train is not None:
        yield from check_crank_train(sheet, sheet.circuit.crank_train, also_known.get("circuit.paths"))


__all__ = ["check"]
