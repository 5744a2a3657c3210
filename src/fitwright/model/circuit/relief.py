"""Relief valves: spring, seat, plunger and ports."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.circuit.sizes import Diameter, DiametralClearance, Length, Lift, Shims, SpringRate


class ReliefPorts(StrEnum):
    """Where oil leaves an open valve: around its seat, by round ports in the bore, by a groove all round."""

    SEAT = "seat"
    ROUND = "round ports"
    ANNULUS = "full annulus"


@dataclass(frozen=True, slots=True)
class Relief:
    """A relief valve from one node to another.

    Pressure acts on `seat_diameter` (the plunger's own, where it has no seat of another size).
    `preload_length` is how far the closed valve shortens its spring, without `shims`, whose thicknesses
    add to it. `plunger_clearance` is diametral, over a land of `land_length`. Ports begin to open
    after a lift of `port_lead`. `seat_leak_lift` is how far the closed seat stands open (zero for a
    tight one), `full_lift` where the plunger stops.
    """

    id: str
    title: str
    from_node: str
    to_node: str
    spring_rate: SpringRate
    preload_length: Length
    seat_diameter: Diameter
    full_lift: Length
    ports: ReliefPorts = ReliefPorts.SEAT
    shims: Shims = ()
    plunger_diameter: Diameter | None = None
    plunger_clearance: DiametralClearance | None = None
    land_length: Length | None = None
    port_count: int = 1
    port_diameter: Diameter | None = None
    port_lead: Lift | None = None
    seat_leak_lift: Lift | None = None
    discharge_coefficient: float | None = None
    note: str | None = None
