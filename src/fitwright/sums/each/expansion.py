"""A fit at temperature: signed sizes, each with its material and its own temperature."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, PutIn, Row, Step, Sum
from fitwright.sums.errors import MissingInputError
from fitwright.sums.forms import SIZE, Amount, Given, Group, Input, Several, Words
from fitwright.sums.materials import Constant, constant, material_named

if TYPE_CHECKING:
    from fitwright.physics.fits.expansion import ChainAtTemperature, ChainMember

_POSITIVE_TEMPERATURE = Amount("temperature", above=0.0)
_UNCERTAINTY = Amount("length", least=0.0)


@dataclass(frozen=True, slots=True)
class _Member:
    """One member as physics takes it, with its name and where its coefficient came from."""

    name: str
    chain: ChainMember
    expansion: Constant
    temperature_origin: str


def _compute(given: Given) -> Found:
    from fitwright.physics.fits.expansion import chain_at_temperature
    from fitwright.physics.metrology.student import student_quantile

    members = [_member(given, each, number) for number, each in enumerate(given["members"], start=1)]
    reference = given["reference_temperature"]
    chain = chain_at_temperature([each.chain for each in members], reference_temperature=reference)
    reach = student_quantile(float("inf"), 0.975) * chain.standard_uncertainty
    return Found(
        {
            "cold_size": chain.cold_size,
            "size_at_temperature": chain.hot_size,
            "change": chain.change,
            "standard_uncertainty": chain.standard_uncertainty,
            "thermal_standard_uncertainty": chain.thermal_standard_uncertainty,
            "interval": (chain.hot_size - reach, chain.hot_size + reach),
            "members": tuple(_row(each, reference) for each in members),
        },
        (
            *(_growth(each, reference) for each in members),
            _sum_of(members, chain),
            _uncertainty(members, chain),
        ),
    )


def _member(given: Given, each: Given, number: int) -> _Member:
    from fitwright.physics.fits.expansion import ChainMember

    place = f"item {number} of members"
    name = each["material"]
    known = each["expansion_coefficient"] is not None
    material = None if name is None or known else material_named(name, f"material of {place}")
    where = f"expansion_coefficient of {place}"
    expansion = constant(each["expansion_coefficient"], material, "expansion_coefficient", where)
    temperature = each["temperature"] if each["temperature"] is not None else given["temperature"]
    if temperature is None:
        raise MissingInputError(f"temperature of {place}", "give one here, or one for all members")
    uncertainty = each["expansion_standard_uncertainty"]
    if uncertainty is None:
        uncertainty = material.standard_uncertainty if material else 1e-6
    chain = ChainMember(
        coefficient=each["coefficient"],
        length=each["size"],
        expansion_coefficient=expansion.value,
        temperature=temperature,
        length_standard_uncertainty=each["standard_uncertainty"],
        expansion_standard_uncertainty=uncertainty,
        temperature_standard_uncertainty=each["temperature_standard_uncertainty"],
        material=material.name if material else name or "",
        temperature_group=each["part"] or "",
    )
    origin = "given" if each["temperature"] is not None else "given for all members"
    return _Member(each["name"] or f"member {number}", chain, expansion, origin)


def _warm(member: _Member, reference: float) -> float:
    from fitwright.physics.fits.expansion import size_at_temperature

    chain = member.chain
    return float(
        size_at_temperature(
            chain.length,
            expansion_coefficient=chain.expansion_coefficient,
            temperature=chain.temperature,
            reference_temperature=reference,
        )
    )


def _row(member: _Member, reference: float) -> Row:
    warm = _warm(member, reference)
    return {
        "name": member.name,
        "size": member.chain.length,
        "size_at_temperature": warm,
        "change": warm - member.chain.length,
    }


def _growth(member: _Member, reference: float) -> Step:
    chain = member.chain
    return Step(
        f"{member.name} at its temperature",
        "size × (1 + expansion coefficient × (temperature − reference temperature))",
        (
            PutIn("size", chain.length, "length", "given"),
            PutIn(
                "expansion coefficient",
                chain.expansion_coefficient,
                "thermal_expansion",
                member.expansion.origin,
            ),
            PutIn("temperature", chain.temperature, "temperature", member.temperature_origin),
            PutIn("reference temperature", reference, "temperature", "sizes are referred to it [iso1_2022]"),
        ),
        PutIn("size at temperature", _warm(member, reference), "length"),
        "jcgm100_2008",
    )


def _sum_of(members: list[_Member], chain: ChainAtTemperature) -> Step:
    return Step(
        "The fit at temperature",
        "sum of coefficient × size at temperature",
        tuple(
            PutIn(f"coefficient of {each.name}", each.chain.coefficient, "ratio", "given") for each in members
        ),
        PutIn("size at temperature", chain.hot_size, "length"),
    )


def _uncertainty(members: list[_Member], chain: ChainAtTemperature) -> Step:
    put_in = [PutIn("from coefficients and temperatures", chain.thermal_standard_uncertainty, "length")]
    for each in members:
        origin = f"temperature of {each.name}"
        put_in.append(
            PutIn(
                origin,
                each.chain.temperature_standard_uncertainty,
                "temperature_difference",
                "u, given or assumed",
            )
        )
        put_in.append(
            PutIn(
                f"expansion of {each.name}",
                each.chain.expansion_standard_uncertainty,
                "thermal_expansion",
                "u, given, of the material, or assumed",
            )
        )
    return Step(
        "Its uncertainty",
        "root of the sum of squares; members of one material, or of one part, share what is unknown of it",
        tuple(put_in),
        PutIn("standard uncertainty", chain.standard_uncertainty, "length"),
        "jcgm100_2008",
    )


_MEMBER = Group(
    (
        Input("name", Words(), "what the member is", usual=True),
        Input(
            "coefficient",
            Amount("ratio"),
            "+1 for a bore, -1 for a shaft, -2 for a wall",
            default=1,
            usual=True,
        ),
        Input(
            "size",
            Amount("length", above=0.0, typed_in=SIZE),
            "its size at the reference temperature",
            required=True,
        ),
        Input("standard_uncertainty", _UNCERTAINTY, "standard uncertainty of that size", default=0),
        Input(
            "material",
            Words(),
            "a material by name; members of one material share its coefficient",
            usual=True,
        ),
        Input(
            "expansion_coefficient",
            Amount("thermal_expansion"),
            "mean expansion coefficient, if you know better",
        ),
        Input(
            "expansion_standard_uncertainty",
            Amount("thermal_expansion", least=0.0),
            "its standard uncertainty; without it the material's own, else 1e-6 /K",
        ),
        Input("temperature", _POSITIVE_TEMPERATURE, "the member's own temperature", usual=True),
        Input(
            "temperature_standard_uncertainty",
            Amount("temperature_difference", least=0.0),
            "how well that temperature is known",
            default=5,
        ),
        Input("part", Words(), "members of one part share what is unknown of its temperature"),
    )
)

_STARTS = ({"name": "bore", "coefficient": "1"}, {"name": "shaft", "coefficient": "-1"})

SUM = Sum(
    name="expansion",
    words=("hot clearance", "thermal growth", "heat", "temperature"),
    title="Fit at temperature",
    text="A clearance or any other signed sum of sizes, with each member at its own temperature.",
    inputs=(
        Input(
            "members",
            Several(_MEMBER, starts=_STARTS),
            "the sizes with their signs, materials and temperatures",
            required=True,
        ),
        Input(
            "temperature",
            _POSITIVE_TEMPERATURE,
            "temperature of every member that has none of its own",
            usual=True,
        ),
        Input(
            "reference_temperature",
            _POSITIVE_TEMPERATURE,
            "temperature that the sizes are referred to",
            default="20 degC",
        ),
    ),
    outputs=(
        Output("cold_size", "the fit at the reference temperature", "length", leads=True),
        Output("size_at_temperature", "the fit with every member at its temperature", "length", leads=True),
        Output("change", "how much the temperatures change it", "length", leads=True),
        Output("standard_uncertainty", "of the fit at temperature", "length"),
        Output("thermal_standard_uncertainty", "what coefficients and temperatures contribute", "length"),
        Output("interval", "95 % interval of the fit at temperature", "length"),
        Output(
            "members",
            "each member",
            columns=(
                Output("name", "what it is"),
                Output("size", "at the reference temperature", "length"),
                Output("size_at_temperature", "at its own temperature", "length"),
                Output("change", "difference of the two", "length"),
            ),
        ),
    ),
    compute=_compute,
    source="jcgm100_2008",
    cautions=("An estimate from usual values: the maker's hot clearance, where there is one, governs.",),
    example={
        "members": [
            {
                "name": "pocket",
                "size": "84.105 mm",
                "standard_uncertainty": "0.003 mm",
                "material": "cast_aluminium",
                "part": "pump",
            },
            {
                "name": "outer rotor",
                "coefficient": -1,
                "size": "83.965 mm",
                "standard_uncertainty": "0.002 mm",
                "material": "steel",
                "part": "pump",
            },
        ],
        "temperature": "110 degC",
    },
)
