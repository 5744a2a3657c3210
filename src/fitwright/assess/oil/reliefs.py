"""The relief valves of the sheet's circuit as elements of its computation."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitwright.assess.oil.parameters import Parameters
from fitwright.model import circuit as sheet
from fitwright.physics.network import elements
from fitwright.physics.network.sizes import Named
from fitwright.physics.pump.relief import Ports, ReliefValve

USUAL_LAND: Final = 10e-3
"""Length of a relief plunger in its bore, where the sheet leaves it out [m]."""

OPENS_WITH_PORTS: Final = {
    sheet.ReliefPorts.SEAT: Ports.SEAT,
    sheet.ReliefPorts.ROUND: Ports.ROUND,
    sheet.ReliefPorts.ANNULUS: Ports.ANNULUS,
}


@dataclass(frozen=True, slots=True)
class ReliefElements:
    """Makes the relief valves of one circuit, and collects the parameters that they follow."""

    parameters: Parameters

    def element(self, valve: sheet.Relief) -> elements.Relief:
        """The element of one relief valve."""
        owner = f"reliefs.{valve.id}"
        preload = self.parameters.of(owner, valve, "preload_length")
        shims = sum(self.parameters.best(each, None) for each in valve.shims)
        lift = f"{owner}.seat_leak_lift"
        self.parameters.values[lift] = self._number(valve, "seat_leak_lift", 0.0)
        return elements.Relief(
            self._valve(valve),
            preload_length=None if preload is None else replace(preload, offset=shims),
            plunger_radial_clearance=self.parameters.of(owner, valve, "plunger_clearance", scale=0.5),
            seat_leak_lift=Named(lift),
            spring_rate=self.parameters.of(owner, valve, "spring_rate"),
        )

    def _valve(self, valve: sheet.Relief) -> ReliefValve:
        plunger = self._number(valve, "plunger_diameter", 0.0)
        given = ReliefValve(
            spring_rate=self._number(valve, "spring_rate", 0.0),
            preload_length=self._number(valve, "preload_length", 0.0),
            seat_diameter=self._number(valve, "seat_diameter", plunger),
            full_lift=self._number(valve, "full_lift", 0.0),
            ports=OPENS_WITH_PORTS[valve.ports],
            port_count=valve.port_count,
            port_diameter=self._number(valve, "port_diameter", 0.0),
            port_lead=self._number(valve, "port_lead", 0.0),
            plunger_diameter=plunger,
            land_length=self._number(valve, "land_length", USUAL_LAND),
        )
        if valve.discharge_coefficient is None:
            return given
        return replace(given, discharge_coefficient=valve.discharge_coefficient)

    def _number(self, valve: sheet.Relief, name: str, usual: float) -> float:
        return self.parameters.number(valve, name, usual)
