"""An oil cooler with its thermostat: the core opens with the oil temperature, a bypass closes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.physics.network.elements import kinds
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.sizes import Size


@dataclass(frozen=True, slots=True)
class Cooler(Element):
    """A core with laminar flow, opened by a thermostat, and a bypass that closes as the core opens.

    The bypass opens again where the drop exceeds its opening pressure.

    Attributes
    ----------
    resistance : float or Named [1/m3]
        Drop over viscosity and flow of the open core with its lines.
    bypass_diameter : float or Named [m]
        Of the open bypass.
    opening_temperature, full_temperature : float or Named [K]
        Oil temperatures at which the thermostat begins to open and is fully open; without a thermostat
        both lie below every oil temperature.
    bypass_opening_pressure, bypass_full_pressure : float or Named [Pa]
        Drops between which the bypass opens whatever the thermostat does.
    bypass_discharge_coefficient : float or Named [1]
        Of the bypass.
    leak_share : float or Named [1]
        Share that stays open on the closed side, so that nothing is shut off wholly.
    """

    KIND: ClassVar[int] = kinds.COOLER
    SLOTS: ClassVar[tuple[str, ...]] = (
        "resistance",
        "bypass_diameter",
        "opening_temperature",
        "full_temperature",
        "bypass_opening_pressure",
        "bypass_full_pressure",
        "bypass_discharge_coefficient",
        "leak_share",
    )
    POSITIVE: ClassVar[tuple[str, ...]] = (
        "resistance",
        "bypass_diameter",
        "opening_temperature",
        "full_temperature",
        "bypass_discharge_coefficient",
        "leak_share",
    )
    NOT_NEGATIVE: ClassVar[tuple[str, ...]] = ("bypass_opening_pressure", "bypass_full_pressure")
    ORDERED: ClassVar[tuple[tuple[str, str], ...]] = (
        ("opening_temperature", "full_temperature"),
        ("bypass_opening_pressure", "bypass_full_pressure"),
    )

    resistance: Size
    bypass_diameter: Size
    opening_temperature: Size = 1.0
    full_temperature: Size = 2.0
    bypass_opening_pressure: Size = 1.0e9
    bypass_full_pressure: Size = 2.0e9
    bypass_discharge_coefficient: Size = 0.62
    leak_share: Size = 0.02
