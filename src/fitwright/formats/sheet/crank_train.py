"""From tables to the model: the crank train of a circuit."""

from __future__ import annotations

from typing import Any, Final

from fitwright.formats.sheet.crank_tables import CrankTrainTable
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.members import MemberTexts
from fitwright.formats.sheet.oil_circuit import SizeReader
from fitwright.formats.sheet.sections import CIRCUIT
from fitwright.model.braces import Member, expand
from fitwright.model.circuit import CrankTrain, GasPressure
from fitwright.model.errors import BraceError
from fitwright.model.problem import Path

_PLACE: Final[Path] = (CIRCUIT, "crank_train")


def crank_train_of(table: CrankTrainTable, sizes: SizeReader, findings: Findings) -> CrankTrain:
    """The crank train."""
    given: dict[str, Any] = sizes.part(CrankTrain, table, _member(findings, _PLACE))
    for name in ("mains", "big_ends"):
        given[name] = _ids(getattr(table, name), (*_PLACE, name), findings)
    given["gas_pressures"] = tuple(
        GasPressure(**sizes.part(GasPressure, each, _member(findings, (*_PLACE, "gas_pressures", index))))
        for index, each in enumerate(table.gas_pressures)
    )
    return CrankTrain(**given)


def _member(findings: Findings, path: Path) -> MemberTexts:
    """A table that stands there once has no braces to fill."""
    return MemberTexts(findings, path, Member("", ()))


def _ids(texts: list[str], path: Path, findings: Findings) -> tuple[str, ...]:
    found: list[str] = []
    for index, text in enumerate(texts):
        try:
            found.extend(member.name for member in expand(text))
        except BraceError as error:
            findings.add_text_error((*path, index), error)
    return tuple(found)
