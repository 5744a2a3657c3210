"""How a size of the circuit is given: an amount as written, or what is measured for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Final, TypeAlias, get_args, get_type_hints

from fitwright.model.amount import Written
from fitwright.model.dimension import Sense


@dataclass(frozen=True, slots=True)
class Reference:
    """The fit or dimension of the sheet whose measured value a size is."""

    subject: str


Size: TypeAlias = Written | Reference


@dataclass(frozen=True, slots=True)
class SizeRule:
    """What a field of the circuit may hold.

    `dimension` is the kind of amount (of `fitwright.units`), `sense` how a length is stated (None
    where that does not matter), `clearance` whether it is a gap between two parts, `zero` whether
    nothing is a sound value, `signed` whether it may be below zero, `stated` whether it is an amount
    only and never a reference.
    """

    dimension: str
    sense: Sense | None = None
    clearance: bool = False
    zero: bool = False
    signed: bool = False
    stated: bool = False


Length: TypeAlias = Annotated[Size, SizeRule("length")]
Lift: TypeAlias = Annotated[Size, SizeRule("length", zero=True)]
Width: TypeAlias = Annotated[Size, SizeRule("length", Sense.AXIAL)]
Diameter: TypeAlias = Annotated[Size, SizeRule("length", Sense.DIAMETRAL)]
Radius: TypeAlias = Annotated[Size, SizeRule("length", Sense.RADIAL)]
EdgeRadius: TypeAlias = Annotated[Size, SizeRule("length", Sense.RADIAL, zero=True)]
DiametralClearance: TypeAlias = Annotated[Size, SizeRule("length", Sense.DIAMETRAL, clearance=True)]
RadialClearance: TypeAlias = Annotated[Size, SizeRule("length", Sense.RADIAL, clearance=True)]
AxialClearance: TypeAlias = Annotated[Size, SizeRule("length", Sense.AXIAL, clearance=True)]
Gap: TypeAlias = Annotated[Size, SizeRule("length", Sense.LINEAR, clearance=True)]
Shims: TypeAlias = Annotated[tuple[Size, ...], SizeRule("length")]
Area: TypeAlias = Annotated[Size, SizeRule("area")]
Displacement: TypeAlias = Annotated[Size, SizeRule("displacement")]
Pressure: TypeAlias = Annotated[Size, SizeRule("pressure")]
SpringRate: TypeAlias = Annotated[Size, SizeRule("spring_rate")]
Mass: TypeAlias = Annotated[Size, SizeRule("mass")]
Ratio: TypeAlias = Annotated[Size, SizeRule("ratio")]

Angle: TypeAlias = Annotated[Written, SizeRule("angle", stated=True)]
Direction: TypeAlias = Annotated[Written, SizeRule("angle", zero=True, signed=True, stated=True)]
FiringAngles: TypeAlias = Annotated[tuple[Written, ...], SizeRule("angle", zero=True, stated=True)]
Offset: TypeAlias = Annotated[Written, SizeRule("length", zero=True, signed=True, stated=True)]
Flow: TypeAlias = Annotated[Written, SizeRule("volume_flow", stated=True)]
Load: TypeAlias = Annotated[Written, SizeRule("force", zero=True, stated=True)]
Roughness: TypeAlias = Annotated[Written, SizeRule("length", zero=True, stated=True)]
Speed: TypeAlias = Annotated[Written, SizeRule("angular_speed", stated=True)]
Vacuum: TypeAlias = Annotated[Written, SizeRule("pressure", signed=True, stated=True)]
StatedArea: TypeAlias = Annotated[Written, SizeRule("area", stated=True)]
StatedPressure: TypeAlias = Annotated[Written, SizeRule("pressure", stated=True)]
Temperature: TypeAlias = Annotated[Written, SizeRule("temperature", stated=True)]
Viscosity: TypeAlias = Annotated[Written, SizeRule("kinematic_viscosity", stated=True)]


_RULES: Final[dict[type, Mapping[str, SizeRule]]] = {}


def size_rules(kind: type) -> Mapping[str, SizeRule]:
    """Field name -> rule, for the fields of a dataclass that hold an amount, in order.

    Examples
    --------
    >>> from fitwright.model.circuit.elements import Jet
    >>> size_rules(Jet)["opening_pressure"].dimension
    'pressure'
    """
    known = _RULES.get(kind)
    if known is None:
        hints = get_type_hints(kind, include_extras=True)
        found = {name: _rule_in(hint) for name, hint in hints.items()}
        known = _RULES[kind] = {name: rule for name, rule in found.items() if rule is not None}
    return known


def _rule_in(hint: Any) -> SizeRule | None:  # noqa: ANN401 - any annotation
    """The rule that an annotation carries, as such or beside None."""
    for each in (hint, *get_args(hint)):
        for rule in getattr(each, "__metadata__", ()):
            if isinstance(rule, SizeRule):
                return rule
    return None


def given_sizes(part: object) -> Iterator[tuple[str, Size, SizeRule]]:
    """Field name, size and rule of every size that a part of the circuit gives; None is left out.

    A field of several sizes (the shims of a relief valve) gives one after the other.
    """
    for name, rule in size_rules(type(part)).items():
        value = getattr(part, name)
        for each in value if isinstance(value, tuple) else (value,):
            if each is not None:
                yield name, each, rule


def factor_between(given: Sense, wanted: Sense | None) -> float:
    """What a value stated in one sense is multiplied by to be one of the sense wanted.

    Parameters
    ----------
    given : Sense
        How the fit or dimension that is referred to is stated.
    wanted : Sense or None
        How the circuit states the size; None where it does not matter.

    Returns
    -------
    float
        2 from radial to diametral, 0.5 from diametral to radial, else 1.

    Examples
    --------
    >>> factor_between(Sense.RADIAL, Sense.DIAMETRAL), factor_between(Sense.DIAMETRAL, Sense.RADIAL)
    (2.0, 0.5)
    """
    if (given, wanted) == (Sense.RADIAL, Sense.DIAMETRAL):
        return 2.0
    return 0.5 if (given, wanted) == (Sense.DIAMETRAL, Sense.RADIAL) else 1.0
