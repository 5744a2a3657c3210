"""The size wanted of the one part that a fit still lacks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import SIZE, Amount, Given, Group, Input, Several, Words

if TYPE_CHECKING:
    from fitwright.physics.metrology.conformity import Bound, DecisionRule
    from fitwright.physics.metrology.readings import ValueReading
    from fitwright.physics.metrology.size_wanted import SizeWanted
    from fitwright.physics.metrology.unknowns import Shared


def _compute(given: Given) -> Found:
    from fitwright.physics.metrology.combinations import Term
    from fitwright.physics.metrology.conformity import DecisionRule
    from fitwright.physics.metrology.size_wanted import size_wanted

    missing, known = _split(given["members"])
    rule = DecisionRule(within=given["required_probability"])
    wanted = size_wanted(
        [Term(each["coefficient"], (_place(number),)) for number, each in known],
        [_reading(number, each) for number, each in known],
        missing["coefficient"],
        _bounds(given),
        rule,
        repeatability=missing["standard_uncertainty"],
        shared=_shared(missing),
    )
    rest = sum(each["coefficient"] * each["size"] for _, each in known)
    return Found(
        {
            "smallest_size": wanted.smallest,
            "largest_size": wanted.largest,
            "aim": wanted.middle if wanted.is_possible else None,
            "is_possible": wanted.is_possible,
            "standard_uncertainty": wanted.standard_uncertainty,
            "sum_of_the_others": rest,
        },
        _working(given, missing, known, wanted, rule),
        () if wanted.is_possible else (_TOO_COARSE,),
    )


_TOO_COARSE = "No size would prove this fit: the uncertainty of the gauges takes up the whole of the limits."


def _split(members: Sequence[Given]) -> tuple[Given, list[tuple[int, Given]]]:
    """The member without a size, and the others with their numbers."""
    missing = [each for each in members if each["size"] is None]
    if len(missing) != 1:
        raise InputError(
            "members", f"{len(missing)} have no size; leave it out for exactly one, the missing part"
        )
    numbered = list(enumerate(members, start=1))
    return missing[0], [(number, each) for number, each in numbered if each["size"] is not None]


def _place(number: int) -> str:
    return f"member {number}"


def _reading(number: int, each: Given) -> ValueReading:
    from fitwright.physics.metrology.readings import ValueReading

    place = _place(number)
    return ValueReading(place, place, each["size"], each["standard_uncertainty"], shared=_shared(each))


def _shared(each: Given) -> tuple[Shared, ...]:
    """What every member measured with the same master shares."""
    from fitwright.physics.metrology.unknowns import Shared, Unknown

    if each["master"] is None:
        return ()
    return (Shared(Unknown(each["master"], each["master_standard_uncertainty"]), 1.0),)


def _bounds(given: Given) -> list[Bound]:
    from fitwright.physics.metrology.conformity import Bound

    lower, upper = given["lower_limit"], given["upper_limit"]
    if lower is None and upper is None:
        raise MissingInputError("lower_limit", "give lower_limit, upper_limit or both")
    if lower is not None and upper is not None and lower > upper:
        raise InputError("lower_limit", "above the upper limit; swap them")
    found = [] if lower is None else [Bound("lower", lower)]
    return found if upper is None else [*found, Bound("upper", upper)]


def _working(
    given: Given, missing: Given, known: Sequence[tuple[int, Given]], wanted: SizeWanted, rule: DecisionRule
) -> tuple[Step, ...]:
    sizes = [PutIn(_name(each, number), each["size"], "length", "given") for number, each in known]
    signs = [
        PutIn(f"coefficient of {_name(each, number)}", each["coefficient"], "ratio") for number, each in known
    ]
    limits = [
        PutIn(side.replace("_", " "), given[side], "length", "given")
        for side in ("lower_limit", "upper_limit")
        if given[side] is not None
    ]
    uncertainties = [
        PutIn(
            f"u of {_name(each, number)}",
            each["standard_uncertainty"],
            "length",
            each.origin("standard_uncertainty"),
        )
        for number, each in known
    ]
    return (
        Step(
            "The other members",
            "sum of coefficient × size",
            (*sizes, *signs),
            PutIn("sum", _sum(known), "length"),
        ),
        Step(
            "Uncertainty of the fit",
            "root of the sum of (coefficient × u)²; what one master shares is added before it is squared",
            (
                *uncertainties,
                PutIn(
                    "u of the missing part",
                    missing["standard_uncertainty"],
                    "length",
                    "of its reading to come",
                ),
            ),
            PutIn("standard uncertainty", wanted.standard_uncertainty, "length"),
            "jcgm100_2008",
        ),
        Step(
            "Size wanted",
            f"(limit ± guard − sum of the others) / coefficient; each limit with P ≥ {rule.within:g}",
            (*limits, PutIn("coefficient of the missing part", missing["coefficient"], "ratio", "given")),
            PutIn("aim", wanted.middle if wanted.is_possible else None, "length"),
            "jcgm106_2012",
        ),
    )


def _sum(known: Sequence[tuple[int, Given]]) -> float:
    return float(sum(each["coefficient"] * each["size"] for _, each in known))


def _name(each: Given, number: int) -> str:
    return each["name"] or _place(number)


_LENGTH = Amount("length", least=0.0)
_MEMBER = Group(
    (
        Input("name", Words(), "what the member is", usual=True),
        Input(
            "coefficient",
            Amount("ratio"),
            "+1 for a bore, -1 for a shaft, -2 for a shell wall",
            default=1,
            usual=True,
        ),
        Input(
            "size",
            Amount("length", above=0.0, typed_in=SIZE),
            "its size; left out for the part that is missing",
            usual=True,
        ),
        Input(
            "standard_uncertainty",
            _LENGTH,
            "standard uncertainty of its reading; of the missing part, that of the reading to come",
            default="0.0015 mm",
        ),
        Input("master", Words(), "what its gauge was set in: members with the same master share its error"),
        Input("master_standard_uncertainty", _LENGTH, "standard uncertainty of that master", default=0),
    )
)

_STARTS = (
    {"name": "housing", "coefficient": "1"},
    {"name": "journal", "coefficient": "-1"},
    {"name": "shell wall", "coefficient": "-2"},
)

SUM = Sum(
    name="missing-part",
    words=("shell", "shim", "select fit", "size wanted", "size to order", "grind to", "lap"),
    title="Size of a missing part",
    text="The sizes of the one part that a fit lacks with which its limits would be proven: what to order,"
    " file, shim or lap to.",
    inputs=(
        Input(
            "members",
            Several(_MEMBER, least=2, starts=_STARTS),
            "the members of the fit, one of them without a size",
            required=True,
        ),
        Input("lower_limit", Amount("length"), "smallest value of the fit allowed", usual=True),
        Input("upper_limit", Amount("length"), "largest value of the fit allowed", usual=True),
        Input(
            "required_probability",
            Amount("ratio", above=0.5, most=0.9999),
            "probability from which on a limit counts as proven",
            default=0.95,
        ),
    ),
    outputs=(
        Output(
            "smallest_size",
            "smallest size that would be proven; null where nothing limits it",
            "length",
            leads=True,
        ),
        Output(
            "largest_size",
            "largest size that would be proven; null where nothing limits it",
            "length",
            leads=True,
        ),
        Output(
            "aim", "middle of both; null where one side is open or no size would do", "length", leads=True
        ),
        Output("is_possible", "whether there is such a size"),
        Output("standard_uncertainty", "of the fit, the reading to come included", "length"),
        Output("sum_of_the_others", "signed sum of the members that are known", "length"),
    ),
    compute=_compute,
    source="jcgm106_2012",
    example={
        "members": [
            {"name": "housing", "size": "54.020 mm"},
            {"name": "journal", "coefficient": -1, "size": "49.992 mm"},
            {"name": "shell wall", "coefficient": -2, "standard_uncertainty": "0.001 mm"},
        ],
        "lower_limit": "0.030 mm",
        "upper_limit": "0.060 mm",
    },
)
