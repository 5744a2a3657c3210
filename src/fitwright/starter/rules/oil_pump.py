"""Rules of thumb for oil pumps, their drives, the relief valve and the oil pickup."""

from __future__ import annotations

from typing import Final

from fitwright.starter.rules.rule import Measure, RuleOfThumb, millimetres

ROTOR_END: Final = millimetres("End clearance, rotors", 0.03, 0.08, "internal rotors, both faces together")
GEAR_END: Final = millimetres("End clearance, gears", 0.04, 0.09, "spur gears, both faces together")
SCAVENGE_END: Final = millimetres(
    "End clearance, scavenge stage", 0.03, 0.06, "scavenge stage, pumps air and oil"
)
COVER_WEAR: Final = millimetres("Wear groove in the cover", None, 0.02, "deeper: grind the cover flat")
ROTOR_TIP: Final = millimetres("Rotor tip clearance", 0.04, 0.15, "rotors centred, at each mesh")
OUTER_ROTOR: Final = millimetres("Outer rotor in its body", 0.10, 0.20, "diametral, aluminium body")
GEAR_RADIAL: Final = millimetres("Gear to body, radial", 0.04, 0.10, "radial, aluminium or iron body")
GEAR_BACKLASH: Final = millimetres("Pump gear backlash", 0.10, 0.25, "spur gears")
PUMP_SHAFT: Final = millimetres("Pump shaft in its bush", 0.020, 0.050, "bronze bush or plain body")
DRIVE_FLATS: Final = millimetres(
    "Drive flats, tongue or hexagon, play", 0.05, 0.15, "across both sides together"
)
ENGAGEMENT: Final = millimetres("Drive tongue, end gap", 0.5, 1.5, "drive shaft in place, cold")
ENGAGEMENT_LENGTH: Final = RuleOfThumb("Drive tongue, engaged length", 0.0, None, "75 % of the slot")
ROTOR_TO_SPACER: Final = millimetres("Inner rotor to nose spacer", 0.1, 0.3, "rotor free along the nose")
RELIEF_PLUNGER: Final = millimetres("Relief plunger in its bore", 0.025, 0.060, "steel plunger")
RELIEF_COIL_BIND: Final = millimetres("Relief spring, travel left", 1.0, None, "valve fully open")
PICKUP: Final = millimetres("Oil pickup to sump floor", 6.0, 12.0, "wet sump")
O_RING_LEAST: Final = RuleOfThumb("O-ring squeeze, least", 0.0, None, "15 % of the section, static joint")
O_RING_MOST: Final = RuleOfThumb("O-ring squeeze, most", None, 0.0, "30 % of the section, static joint")
PUMP_OFFSET_CLOSE: Final = millimetres(
    "Pump to crank, offset, competition", None, 0.05, "crank-driven, competition"
)
PUMP_OFFSET: Final = millimetres("Pump to crank, offset", None, 0.08, "crank-driven")
SPROCKETS: Final = millimetres("Pulley or sprocket alignment", None, 0.5, "straight-edge across both")
SCAVENGE_LEAST: Final = RuleOfThumb(
    "Scavenge over pressure displacement, least",
    0.0,
    None,
    "1.5 times the pressure stage",
    measure=Measure.VOLUME,
)
