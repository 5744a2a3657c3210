"""The crank train as far as the loads of its bearings need it: sizes, masses, a stated gas pressure."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.model.circuit.sizes import (
    Angle,
    Diameter,
    FiringAngles,
    Length,
    Mass,
    Offset,
    Ratio,
    Speed,
    StatedPressure,
)


@dataclass(frozen=True, slots=True)
class GasPressure:
    """Pressure in a cylinder at one speed of the crank: stated, not modelled.

    Pressures are absolute. `peak_angle` is counted from the firing top; `intake_pressure` and
    `exhaust_pressure` are those while the cylinder fills and empties, about that of the air where the
    sheet leaves them out.
    """

    speed: Speed
    peak_pressure: StatedPressure
    peak_angle: Angle
    intake_pressure: StatedPressure | None = None
    exhaust_pressure: StatedPressure | None = None


@dataclass(frozen=True, slots=True)
class CrankTrain:
    """What the loads of mains and big ends over the cycle need; all cylinders are alike.

    `mains` and `big_ends` are ids of the paths through the bearings, mains from the nose, big ends by
    cylinder. Bore, stroke and rod length are those of the engine's layout where they are left out.
    `reciprocating_mass` is piston, rings, pin, clips and the rod's small end as weighed,
    `rotating_mass` the rod's big end with its cap, bolts and shells. The crank balances its pins and
    webs itself; `counterweight_share` is the share of the rotating mass that it balances besides.
    `pin_offset` is positive towards the side that the throw turns to from the top. `firing_angles` are
    those of the crank at which the cylinders fire, by cylinder, for engines that do not fire evenly.
    Between the speeds of its gas pressures they are interpolated, beyond them the nearest counts.
    """

    mains: tuple[str, ...]
    big_ends: tuple[str, ...]
    reciprocating_mass: Mass
    rotating_mass: Mass
    compression_ratio: Ratio
    gas_pressures: tuple[GasPressure, ...]
    bore: Diameter | None = None
    stroke: Length | None = None
    rod_length: Length | None = None
    pin_offset: Offset | None = None
    counterweight_share: float = 0.0
    firing_angles: FiringAngles = ()
    compression_exponent: float | None = None
    expansion_exponent: float | None = None
    note: str | None = None
