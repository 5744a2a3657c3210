"""What a prediction of the oil system may say of itself."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitwright.assess.oil.sizes import KnownSize
from fitwright.physics.pump.stages import StageBalance

NOT_MODELLED: Final = (
    "Steady running at one oil temperature; no warming up, no surge, no oil thrown away from the pickup.",
    (
        "Bearings carry a steady load that the sheet states, round and parallel, without bending; films "
        "under the loads of the cycle are told apart, where the sheet describes a crank train."
    ),
    (
        "Parts are as warm as the oil that reaches them; each film warms by its own friction. A clearance "
        "that stands in the circuit as an amount does not grow; a fit does."
    ),
    "No air in the oil but for the pressure at which the pump stops filling.",
    "Edges and bends lose pressure by published coefficients, which differ between authors.",
    (
        "Pump gaps leak as parallel lands whose lengths follow from the rotors; wear grooves are left out, "
        "and what goes along the drive shaft."
    ),
)

VALIDATED: Final = (
    "Bearings, pipes, edges, oils and pump displacement are held against published values; the circuit as a "
    "whole against a second solution written separately. No prediction has been held against an engine of "
    "yours before its first start: the readings of the first start do that."
)

BAND_MEANS: Final = (
    "The band is where 95 % of the engines lie that agree with your readings. It holds what is not known of "
    "sizes, not what the model leaves out."
)

CAUTIONS: Final = (
    "A prediction, not a limit: the engine maker's manual governs, and a qualified person decides.",
    (
        "Oil is hot and under pressure: keep skin and eyes away from joints and jets; oil under the skin "
        "is a medical emergency."
    ),
)


def name_of(engine: str, unmeasured: Sequence[KnownSize]) -> str:
    """The engine's name, while no critical size is unmeasured."""
    return "an engine of this sheet" if any(each.critical for each in unmeasured) else engine


def title_of(engine: str, unmeasured: Sequence[KnownSize]) -> str:
    """With the engine's name only while no critical size is unmeasured; with how many are."""
    name = name_of(engine, unmeasured)
    if not unmeasured:
        return f"Oil of {name}"
    count = len(unmeasured)
    sizes = "one size is" if count == 1 else f"{count} sizes are"
    return f"Oil of {name}, while {sizes} not measured"


def not_known_words(sizes: Sequence[KnownSize]) -> str:
    """Why nothing is predicted, and what to do."""
    names = ", ".join(each.title for each in sizes[:5])
    more = f" and {len(sizes) - 5} more" if len(sizes) > 5 else ""
    return f"Nothing is known of {names}{more}: measure, or write limits or a nominal size into the sheet."


def scavenging_words(balance: StageBalance | None) -> tuple[str, ...]:
    """What the scavenge stages of a dry sump displace; nothing without any."""
    if balance is None:
        return ()
    ratio = (
        f"The scavenge stages displace {balance.ratio:.2f} times what the pressure stages do; as a rule of "
    )
    return (f"{ratio}thumb 1.5 to 2.5.", *balance.cautions)
