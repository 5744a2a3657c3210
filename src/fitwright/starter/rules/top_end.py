"""Rules of thumb for head, valves and camshafts."""

from __future__ import annotations

from typing import Final

from fitwright.starter.rules.rule import millimetres

SQUISH: Final = millimetres("Squish", 0.9, 1.3, "steel rods, iron block, water-cooled")
SQUISH_WIDE: Final = millimetres("Squish, air-cooled or aluminium", 1.1, 1.5, "air-cooled or aluminium block")
GASKET_OVERHANG: Final = millimetres(
    "Gasket bore over cylinder bore", 0.8, 1.5, "composite or layered gasket"
)
PISTON_TO_INLET: Final = millimetres(
    "Piston to inlet valve", 1.5, None, "steel rods, at the closest crank angle"
)
PISTON_TO_INLET_FAST: Final = millimetres(
    "Piston to inlet valve, competition", 2.0, None, "competition speeds, at the closest crank angle"
)
PISTON_TO_EXHAUST: Final = millimetres(
    "Piston to exhaust valve", 2.0, None, "steel rods, at the closest crank angle"
)
PISTON_TO_EXHAUST_FAST: Final = millimetres(
    "Piston to exhaust valve, competition", 2.5, None, "competition speeds, at the closest crank angle"
)
POCKET: Final = millimetres(
    "Valve in its piston pocket, radial", 1.25, None, "pockets cut to the valve's own centre"
)
VALVE_TO_VALVE: Final = millimetres("Valve to valve at overlap", 1.0, None, "closest approach at overlap")
STEM_INLET: Final = millimetres("Stem to guide, inlet", 0.020, 0.045, "inlet, solid stem")
STEM_EXHAUST: Final = millimetres("Stem to guide, exhaust", 0.035, 0.070, "exhaust, water-cooled")
STEM_EXHAUST_AIR: Final = millimetres(
    "Stem to guide, exhaust, air-cooled", 0.035, 0.090, "exhaust, air-cooled"
)
GUIDE_IN_HEAD: Final = millimetres("Guide in head, interference", 0.025, 0.050, "guide about 12 mm")
SEAT_IN_ALUMINIUM: Final = millimetres(
    "Seat insert, interference, aluminium", 0.08, 0.13, "aluminium, insert about 35 mm"
)
SEAT_IN_IRON: Final = millimetres(
    "Seat insert, interference, iron", 0.05, 0.10, "cast iron, insert about 35 mm"
)
SEAT_RUN_OUT: Final = millimetres("Seat run-out", None, 0.03, "total indicator reading about the guide")
SEAT_WIDTH_INLET: Final = millimetres("Seat width, inlet", 1.0, 1.5, "inlet")
SEAT_WIDTH_EXHAUST: Final = millimetres("Seat width, exhaust", 1.5, 2.2, "exhaust")
COIL_BIND: Final = millimetres(
    "Spring travel left before coil bind", 1.0, 2.0, "total of the coils at full lift"
)
RETAINER: Final = millimetres("Retainer to seal or guide at full lift", 1.25, None, "full lift")
LASH_INLET: Final = millimetres("Valve lash, inlet", 0.15, 0.30, "inlet, cold; the cam's own figure governs")
LASH_EXHAUST: Final = millimetres(
    "Valve lash, exhaust", 0.25, 0.45, "exhaust, cold; the cam's own figure governs"
)
PLUNGER_TRAVEL: Final = millimetres(
    "Hydraulic follower, plunger travel used", 0.5, 1.0, "hydraulic followers"
)
ROCKER_BUSH: Final = millimetres("Rocker bush to shaft", 0.025, 0.060, "bronze bush, pressure fed")
TIP_SWEEP: Final = millimetres("Rocker tip sweep", None, 2.0, "centred at half lift")
FOLLOWER: Final = millimetres("Follower in its bore", 0.020, 0.045, "steel or iron follower")
CAM_JOURNAL: Final = millimetres("Cam journal clearance", 0.040, 0.080, "pressure-fed journals")
CAM_END_FLOAT: Final = millimetres("Camshaft end float", 0.05, 0.20, "thrust plate or flange")
CAM_RUN_OUT: Final = millimetres("Camshaft run-out", None, 0.04, "total indicator reading, twice the bow")
BASE_CIRCLE: Final = millimetres(
    "Base circle run-out", None, 0.025, "total indicator reading over the base circle"
)
