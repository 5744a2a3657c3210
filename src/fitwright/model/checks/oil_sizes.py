"""Sizes of the oil circuit: references lead to what can stand there, amounts are of a size that occurs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Final

from fitwright.model.amount import Written
from fitwright.model.circuit import Circuit, Reference, SizeRule, size_rules
from fitwright.model.dimension import Dimension, Sense
from fitwright.model.fit import Fit, FitKind
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet

_CLEARANCES: Final = frozenset(
    {
        FitKind.RUNNING_CLEARANCE,
        FitKind.END_FLOAT,
        FitKind.SIDE_CLEARANCE,
        FitKind.GAP,
        FitKind.BACKLASH,
    }
)
"""The kinds of fit that are a gap which oil can fill; a chain may be one or not."""

_LENGTHS: Final = frozenset({Sense.DIAMETRAL, Sense.RADIAL, Sense.AXIAL, Sense.LINEAR})
_ROUND: Final = frozenset({Sense.DIAMETRAL, Sense.RADIAL})
_SENSES: Final[Mapping[str, frozenset[Sense]]] = {
    "length": _LENGTHS,
    "pressure": frozenset({Sense.PRESSURE}),
    "spring_rate": frozenset({Sense.STIFFNESS}),
    "mass": frozenset({Sense.MASS}),
    "ratio": frozenset({Sense.RATIO}),
}
"""How what a size refers to may be stated."""

_TYPICAL: Final[Mapping[str, tuple[float, float, str]]] = {
    "clearance": (1e-7, 3e-3, "0.055 mm"),
    "length": (1e-5, 10.0, "62 mm"),
    "area": (1e-8, 0.1, "1600 mm2"),
    "displacement": (1e-8, 1e-2, "12.4 cc/rev"),
    "pressure": (1e2, 3e7, "4.5 bar"),
    "spring_rate": (1.0, 1e6, "8 N/mm"),
    "mass": (1e-2, 100.0, "640 g"),
    "ratio": (2.0, 30.0, "10.5"),
    "angle": (1e-3, 6.5, "180 deg"),
    "volume_flow": (1e-8, 1e-2, "9.2 L/min"),
    "force": (1e-1, 1e7, "2200 N"),
    "angular_speed": (1.0, 5000.0, "6500 rpm"),
    "temperature": (233.0, 523.0, "90 degC"),
    "kinematic_viscosity": (1e-6, 1e-2, "11.2 mm2/s"),
}
"""Between which values [SI] an amount in an oil circuit lies, and how one is written."""
_ROUGHNESS: Final = (1e-9, 2e-4, "0.4 um")
_FIRING: Final = (1e-3, 12.5664, "540 deg")


def check_oil_sizes(
    sheet: Sheet, circuit: Circuit, also_known: Mapping[str, frozenset[str]]
) -> Iterator[Problem]:
    """Problems of every size of the circuit by itself."""
    unusable = also_known.get("fits", frozenset()) | also_known.get("dimensions", frozenset())
    for place, part in _parts(circuit):
        for field, each, rule in _sizes(part):
            path: Path = ("circuit", *place, *field)
            if isinstance(each, Written):
                yield from _check_amount(each, field[0], rule, path)
            elif each.subject not in unusable:
                yield from _check_reference(sheet, each, rule, path)


def _parts(circuit: Circuit) -> Iterator[tuple[Path, Any]]:
    """Everything that holds sizes, with its place in the circuit's table."""
    for section, name, parts in circuit.parts():
        yield from (((section, name), part) for part in parts)
    train = circuit.crank_train
    if train is not None:
        yield ("crank_train",), train
        yield from (
            (("crank_train", "gas_pressures", index), each) for index, each in enumerate(train.gas_pressures)
        )


def _sizes(part: Any) -> Iterator[tuple[Path, Written | Reference, SizeRule]]:  # noqa: ANN401 - any part
    for name, rule in size_rules(type(part)).items():
        value = getattr(part, name)
        if isinstance(value, tuple):
            yield from (((name, index), each, rule) for index, each in enumerate(value))
        elif value is not None:
            yield (name,), value, rule


def typical_range(field: str, rule: SizeRule) -> tuple[float, float, str]:
    """Between which values [SI] such an amount lies, and how one is written."""
    if field.endswith("roughness"):
        return _ROUGHNESS
    if field == "firing_angles":
        return _FIRING
    return _TYPICAL["clearance" if rule.clearance else rule.dimension]


def _check_amount(amount: Written, field: object, rule: SizeRule, path: Path) -> Iterator[Problem]:
    least, most, example = typical_range(str(field), rule)
    if rule.signed:
        least = -most
    if rule.zero and amount.si == 0.0:
        return
    if amount.si < least or amount.si > most:
        what = f"{amount.written} is far from anything in an oil circuit"
        yield Problem(path, what, f'check number and unit; write it as "{example}"')


def _check_reference(sheet: Sheet, reference: Reference, rule: SizeRule, path: Path) -> Iterator[Problem]:
    name = reference.subject
    subject = sheet.fits.get(name) or sheet.dimensions.get(name)
    if subject is None:
        mend = meant(name, [*sheet.fits, *sheet.dimensions])
        yield Problem(path, f'there is no fit or dimension "{name}"', mend or "write an id, or an amount")
        return
    accepted = _SENSES.get(rule.dimension, frozenset())
    if subject.sense not in accepted:
        words = rule.dimension.replace("_", " ")
        what = f"{name} is stated as {subject.sense.value} where a {words} belongs"
        yield Problem(path, what, f"write the amount: {_example(rule)}")
    elif rule.clearance and not _is_clearance(subject):
        mend = "write the fit that is the clearance, or the amount"
        yield Problem(path, f"{name} is no clearance", mend)
    elif not rule.clearance and isinstance(subject, Fit) and subject.kind in _CLEARANCES:
        what = f"{name} is a clearance where a size belongs"
        yield Problem(path, what, "write a dimension, or the amount")
    elif rule.sense is not None and not _agree(subject.sense, rule.sense):
        what = f"{name} is stated as {subject.sense.value} where {rule.sense.value} is meant"
        yield Problem(path, what, "write another fit or dimension, or the amount")


def _example(rule: SizeRule) -> str:
    return f'"{_TYPICAL[rule.dimension][2]}"'


def _is_clearance(subject: Fit | Dimension) -> bool:
    """A fit that is a gap, or a gap that is read straight off the assembled parts."""
    if isinstance(subject, Fit):
        return subject.kind in _CLEARANCES or subject.kind is FitKind.CHAIN
    return bool(subject.through) and subject.nominal is None and subject.sense is not Sense.DIAMETRAL


def _agree(given: Sense, wanted: Sense) -> bool:
    """Diametral and radial are turned into each other; linear says nothing against either."""
    return given is wanted or {given, wanted} <= _ROUND or Sense.LINEAR in {given, wanted}
