"""Rules of thumb for camshaft drives, seals and what sits on the crank's ends."""

from __future__ import annotations

from typing import Final

from fitwright.starter.rules.rule import RuleOfThumb, millimetres

GEAR_BACKLASH: Final = millimetres("Timing gear backlash", 0.05, 0.15, "steel gears, at the pitch circle")
CHAIN_SLACK_LEAST: Final = RuleOfThumb(
    "Chain slack, least", 0.0, None, "2 % of the free span, light hand force"
)
CHAIN_SLACK_MOST: Final = RuleOfThumb(
    "Chain slack, most", None, 0.0, "4 % of the free span, light hand force"
)
SKEW_BACKLASH: Final = millimetres(
    "Skew drive, apparent backlash", 0.08, 0.18, "crossed helical gears, end float not held"
)
SHAFT_END_FLOAT: Final = millimetres("Skew or jack shaft end float", 0.05, 0.20, "thrust faces on both ends")
SEAL_LIP: Final = millimetres("Lip of an oil seal, interference", 0.5, 1.2, "shaft about 40 mm, seal new")
SEAL_SHAFT_RUN_OUT: Final = millimetres("Shaft under a seal, run-out", None, 0.10, "total indicator reading")
SEAL_OFFSET_CLOSE: Final = millimetres("Seal carrier offset, competition", None, 0.10, "radial, competition")
SEAL_OFFSET: Final = millimetres("Seal carrier offset", None, 0.15, "radial, lip seal")
SEAL_BORE: Final = millimetres("Oil seal in its bore, interference", 0.10, 0.25, "steel-cased seal")
SCROLL: Final = millimetres(
    "Rear scroll, radial clearance", 0.05, 0.15, "scroll on the crank, bore centred on it"
)
FLYWHEEL_CLOSE: Final = millimetres(
    "Flywheel face and rim, run-out, competition",
    None,
    0.10,
    "total indicator reading at 150 mm radius, competition",
)
FLYWHEEL: Final = millimetres(
    "Flywheel face and rim, run-out", None, 0.15, "total indicator reading at 150 mm radius"
)
CLUTCH_HOUSING: Final = millimetres(
    "Clutch housing, offset", None, 0.10, "half the total indicator reading of its bore"
)
CLUTCH_HOUSING_FACE: Final = millimetres(
    "Clutch housing, face run-out", None, 0.10, "total indicator reading"
)
SPIGOT_BEARING: Final = millimetres("Spigot bearing on the gearbox shaft", 0.03, 0.08, "plain bush")
DAMPER_HUB: Final = millimetres(
    "Damper or pulley hub, interference", 0.010, 0.050, "steel hub on a keyed nose"
)
FLYWHEEL_SPIGOT: Final = millimetres("Flywheel on its spigot", 0.0, 0.02, "spigot on the crank")
WATER_PUMP: Final = millimetres("Water pump impeller to housing", 0.3, 1.0, "open impeller")
