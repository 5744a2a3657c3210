"""Field types of the engine sheet's tables: words from closed lists, ids, amounts.

Amounts stay as written here (a text, or a bare number that `amounts` then refuses or takes as a
ratio), because what unit an amount needs often depends on the field beside it.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator
from pydantic_core import PydanticCustomError

from fitwright.records.fields import hidden_in

ID_PATTERN = r"^[a-z0-9_]+(\.[a-z0-9_]+)*$"
FAMILY_PATTERN = r"^[a-z0-9_.{},]+$"
LONGEST_TEXT = 4000
MOST_LIMITS = 60

Arrangement: TypeAlias = Literal["single", "twin", "inline", "vee", "flat"]
Bearings: TypeAlias = Literal["plain", "white metal", "rolling"]
ValveTrain: TypeAlias = Literal[
    "pushrod", "overhead camshaft", "double overhead camshafts", "side valve", "two-stroke"
]
ValveAdjustment: TypeAlias = Literal["shims", "screws", "hydraulic", "none"]
Pump: TypeAlias = Literal[
    "crank-driven internal rotor", "external spur", "chain-driven", "camshaft-driven", "dry sump", "none"
]
Rotation: TypeAlias = Literal["clockwise from the nose", "anticlockwise from the nose"]
Aspiration: TypeAlias = Literal["naturally aspirated", "turbocharged", "supercharged"]
Cooling: TypeAlias = Literal["water", "air", "oil"]
Piston: TypeAlias = Literal["forged", "cast"]
UnitFamily: TypeAlias = Literal["mm", "inch"]
ConditionKind: TypeAlias = Literal["bare", "tightened", "torque plate", "gasket in", "free", "assembled"]


class Table(BaseModel):
    """What all tables share: immutable, strict, unknown keys refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


def _amount(value: Any) -> str | int | float:  # noqa: ANN401 - anything that TOML can hold
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        kind = "amount_type"
        raise PydanticCustomError(kind, "not an amount")
    return value


def _amounts(value: Any) -> list[str | int | float]:  # noqa: ANN401 - anything that TOML can hold
    return [_amount(each) for each in (value if isinstance(value, list) else [value])]


def _one_or_more(value: Any) -> Any:  # noqa: ANN401 - the list type behind it judges the value
    return [value] if isinstance(value, str) else value


_AmountText: TypeAlias = Annotated[
    str, Field(examples=["67.08 mm", "2.5 thou"], json_schema_extra={"format": "amount"})
]
Amount: TypeAlias = Annotated[str | int | float, PlainValidator(_amount, json_schema_input_type=_AmountText)]
Amounts: TypeAlias = Annotated[
    list[str | int | float],
    PlainValidator(_amounts, json_schema_input_type=_AmountText | list[_AmountText]),
]
"""One amount or several."""
RatioAmount: TypeAlias = Annotated[
    str | int | float, PlainValidator(_amount, json_schema_input_type=_AmountText | float)
]
"""An amount that is a plain number where the sense is a ratio."""


_SizeText: TypeAlias = Annotated[
    str,
    Field(examples=["62 mm", "main.4.running_clearance"], json_schema_extra={"format": "amount or id"}),
]
SizeAmount: TypeAlias = Annotated[
    str | int | float, PlainValidator(_amount, json_schema_input_type=_SizeText)
]
"""An amount, or the id of the fit or dimension that is measured for it."""


def _visible(text: str) -> str:
    """Words of a sheet are shown on pages and in terminals, which obey some characters."""
    found = hidden_in(text)
    if found is not None:
        kind, words = "hidden", "a character that nobody can see ({character})"
        raise PydanticCustomError(kind, words, {"character": found})
    return text


Text: TypeAlias = Annotated[str, Field(min_length=1, max_length=LONGEST_TEXT), AfterValidator(_visible)]
Texts: TypeAlias = Annotated[
    list[Text], BeforeValidator(_one_or_more, json_schema_input_type=str | list[str])
]
Coefficient: TypeAlias = Annotated[float, Field(gt=0.0, le=100.0, allow_inf_nan=False)]
Ratio: TypeAlias = Annotated[float, Field(gt=0.0, le=20.0, allow_inf_nan=False)]
Count: TypeAlias = Annotated[int, Field(ge=1, le=1000)]
Number: TypeAlias = Annotated[float, Field(allow_inf_nan=False)]
FamilyKey: TypeAlias = Annotated[str, Field(pattern=FAMILY_PATTERN)]
