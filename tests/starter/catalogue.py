"""The trade's catalogue of fits, by number: which ids stand for each, and when an engine has none.

A row is (numbers, pattern of the ids, when it applies, why not elsewhere). Of words parted by bars
in brackets each one must be there. Ids are matched whole.
"""

import re
from dataclasses import dataclass
from itertools import product

from fitwright.starter.plan import Plan


@dataclass(frozen=True)
class Row:
    """One or more numbers of the catalogue, where the sheet has them, and for which engines."""

    numbers: tuple[int, ...]
    pattern: str
    applies: object = None
    why_not: str = ""

    @property
    def patterns(self) -> tuple[str, ...]:
        """One pattern for each id that must be there."""
        pieces = re.split(r"\((\w+(?:\|\w+)+)\)", self.pattern)
        choices = [piece.split("|") if number % 2 else [piece] for number, piece in enumerate(pieces)]
        return tuple("".join(chosen) for chosen in product(*choices))

    def applies_to(self, plan: Plan) -> bool:
        return self.applies is None or self.applies(plan)


def _valved(plan):
    return not plan.two_stroke


def _caps(plan):
    return plan.plain and not plan.split_case


def _pumped(plan):
    return plan.pump != "none"


def _rotors(plan):
    return plan.pump in {"crank-driven internal rotor", "chain-driven"}


def _spur_gears(plan):
    return plan.pump in {"external spur", "camshaft-driven", "dry sump"}


def _tongue(plan):
    return plan.pump in {"external spur", "camshaft-driven"}


SHELLS = "white metal is bored, rolling bearings have rollers: no shells"
TWO_STROKE = "a two-stroke has ports, no valves"
NO_PUMP = "mist lubrication: no oil pump"
UNIT = "singles and twins share their case with the gearbox"

CATALOGUE = (
    Row((1,), r"main\.1\.running_clearance", lambda p: p.shells, SHELLS),
    Row((5,), r"main\.1\.shell_crush", lambda p: p.shells, SHELLS),
    Row((7,), r"main\.1\.shell_(upper|lower)\.free_spread", lambda p: p.shells, SHELLS),
    Row((5,), r"rod\.1\.shell_crush", lambda p: p.shells, SHELLS),
    Row((2,), r"main\.1\.running_clearance", lambda p: p.plain, "rolling bearings: the races' fits decide"),
    Row((3,), r"rod\.1\.running_clearance"),
    Row((4,), r"main\.1\.running_clearance", lambda p: p.bearings == "white metal", "no white metal"),
    Row((6,), r"main\.1\.housing_out_of_round", lambda p: p.shells, SHELLS),
    Row((6,), r"main\.1\.housing_bore", lambda p: p.shells, SHELLS),
    Row(
        (8,),
        r"main_tunnel\.offset_(neighbours|overall)",
        lambda p: p.shells and p.mains > 2,
        "two bearings have no line to leave; white metal and races are bored in place",
    ),
    Row((9,), r"crank\.run_out"),
    Row(
        (10,),
        r"\w+\.1\.(journal_out_of_round|journal_taper|pin_out_of_round|pin_taper)",
        lambda p: p.plain,
        "races take up no form",
    ),
    Row((11,), r"crank\.end_float"),
    Row((12,), r"\w+\.1\.side_clearance"),
    Row((13,), r"rod\.2\.length_match", lambda p: p.cylinders > 1, "a single rod matches nothing"),
    Row((14,), r"rod\.1\.(bend|twist)"),
    Row(
        (15,), r"rod\.1\.small_end_clearance", lambda p: p.piston_pin == "floating", "pin pressed in the rod"
    ),
    Row((16,), r"rod\.1\.pin_interference", lambda p: p.piston_pin == "pressed", "floating pin"),
    Row((17,), r"piston\.1\.pin_clearance"),
    Row(
        (18,), r"piston\.1\.pin_end_float", lambda p: p.piston_pin == "floating", "a pressed pin has no clips"
    ),
    Row((19,), r"cylinder\.1\.piston_to_wall"),
    Row((20,), r"cylinder\.1\.bore_(taper|out_of_round)"),
    Row((21,), r"cylinder\.1\.top_ring_gap"),
    Row((22,), r"cylinder\.1\.second_ring_gap"),
    Row((23,), r"cylinder\.1\.oil_rail_gap", _valved, "a two-stroke has no oil ring"),
    Row((24,), r"cylinder\.1\.top_ring_side_clearance"),
    Row((25,), r"cylinder\.1\.top_ring_back_clearance"),
    Row((26,), r"cylinder\.1\.deck"),
    Row((27,), r"main\.1\.cap_register", _caps, "split case or races: no caps"),
    Row((28,), r"block\.plug_interference"),
    Row((29,), r"cylinder\.1\.compression_ratio"),
    Row((30,), r"cylinder\.1\.squish"),
    Row((31,), r"cylinder\.1\.gasket_overhang"),
    Row(
        (32,),
        r"valve\.1\.inlet(\.a)?\.piston_clearance",
        lambda p: p.overhead_valves,
        "no valve above the piston",
    ),
    Row(
        (33,),
        r"valve\.1\.exhaust(\.a)?\.piston_clearance",
        lambda p: p.overhead_valves,
        "no valve above the piston",
    ),
    Row(
        (34,),
        r"valve\.1\.inlet(\.a)?\.pocket_clearance",
        lambda p: p.overhead_valves,
        "no valve above the piston",
    ),
    Row((35,), r"cylinder\.1\.valve_to_valve", lambda p: p.overhead_valves, "valves cannot meet"),
    Row((36,), r"valve\.1\.inlet(\.a)?\.stem_clearance", _valved, TWO_STROKE),
    Row((37,), r"valve\.1\.exhaust(\.a)?\.stem_clearance", _valved, TWO_STROKE),
    Row((38,), r"guide\.1\.inlet(\.a)?\.interference", _valved, TWO_STROKE),
    Row((39,), r"seat\.1\.inlet(\.a)?\.interference", _valved, TWO_STROKE),
    Row((40,), r"seat\.1\.inlet(\.a)?\.(run_out|width)", _valved, TWO_STROKE),
    Row((41,), r"valve\.1\.inlet(\.a)?\.installed_height", _valved, TWO_STROKE),
    Row((42,), r"valve\.1\.inlet(\.a)?\.(seat|lift)_load", _valved, TWO_STROKE),
    Row((43,), r"valve\.1\.inlet(\.a)?\.coil_bind_margin", _valved, TWO_STROKE),
    Row((44,), r"valve\.1\.inlet(\.a)?\.retainer_clearance", _valved, TWO_STROKE),
    Row(
        (45,),
        r"valve\.1\.(inlet|exhaust)(\.a)?\.lash",
        lambda p: _valved(p) and p.valve_adjustment != "hydraulic",
        "hydraulic followers take up the lash, ports have none",
    ),
    Row((46,), r"shim\.1\.inlet(\.a)?\.thickness", lambda p: p.valve_adjustment == "shims", "no shims"),
    Row(
        (47,), r"valve\.1\.inlet(\.a)?\.preload", lambda p: p.valve_adjustment == "hydraulic", "not hydraulic"
    ),
    Row((48,), r"rocker\.1\.inlet(\.a)?\.bush_clearance", lambda p: p.rockers, "no rockers"),
    Row((49,), r"rocker\.1\.inlet(\.a)?\.sweep", lambda p: p.rockers, "no rockers"),
    Row((50,), r"follower\.1\.inlet(\.a)?\.clearance", lambda p: p.followers, "no sliding followers"),
    Row((51,), r"camshaft\.(\w+\.)*1\.running_clearance", _valved, TWO_STROKE),
    Row((52,), r"camshaft\.(\w+\.)*end_float", _valved, TWO_STROKE),
    Row((53,), r"camshaft\.(\w+\.)*(base_circle_run_out|run_out)", _valved, TWO_STROKE),
    Row((54,), r"camshaft\.(\w+\.)*lobe_centre", _valved, TWO_STROKE),
    Row((55,), r"camshafts\.ramps", _valved, TWO_STROKE),
    Row(
        (56,),
        r"cam_drive\.backlash",
        lambda p: _valved(p) and p.cam_drive in {"gears", "shaft"},
        "no gears turn the camshaft",
    ),
    Row(
        (57,),
        r"cam_drive\.slack_against_(least|most)",
        lambda p: _valved(p) and p.cam_drive == "chain",
        "no chain",
    ),
    Row((58,), r"cam_drive\.belt_tension", lambda p: _valved(p) and p.cam_drive == "belt", "no belt"),
    Row(
        (59, 60), r"skew_drive\.(backlash|end_float)", lambda p: p.pump == "camshaft-driven", "no skew shaft"
    ),
    Row((61, 63), r"rear_seal\.(lip|bore)_interference", lambda p: p.rear_seal == "lip", "no lip seal"),
    Row((62,), r"rear_seal_carrier\.offset"),
    Row((65,), r"rear_seal\.radial_clearance", lambda p: p.rear_seal != "lip", "lip seal"),
    Row((66,), r"flywheel\.(face|rim)_run_out", lambda p: p.clutch_on_crank, UNIT),
    Row((67,), r"clutch_housing\.(offset|face_run_out)", lambda p: p.clutch_on_crank, UNIT),
    Row((68,), r"crank\.spigot_bearing_clearance", lambda p: p.clutch_on_crank, UNIT),
    Row((69,), r"damper\.hub_interference", lambda p: p.clutch_on_crank, UNIT),
    Row((70,), r"flywheel\.spigot_clearance", lambda p: p.clutch_on_crank, UNIT),
    Row((71,), r"water_pump\.impeller_clearance", lambda p: p.cooling == "water", "no water"),
    Row(
        (72,),
        r"turbocharger\.(axial|radial)_movement",
        lambda p: p.aspiration == "turbocharged",
        "no turbocharger",
    ),
    Row((73,), r"\w+\.\w+\.end_clearance", _pumped, NO_PUMP),
    Row((74,), r"pump\.tip_clearance", _rotors, "no rotors"),
    Row((75,), r"pump\.outer_rotor\.clearance", _rotors, "no rotors"),
    Row((76,), r"\w+\.\w+\.radial_clearance", _spur_gears, "no spur gears"),
    Row((77,), r"(?:pump|stage\.1)\.backlash", _spur_gears, "no spur gears"),
    Row(
        (78,),
        r"pump\.\w+\.shaft_clearance",
        lambda p: _pumped(p) and p.pump != "crank-driven internal rotor",
        "the crank is the pump's shaft, or there is no pump",
    ),
    Row(
        (79,),
        r"pump\.drive_clearance",
        lambda p: _tongue(p) or p.pump == "crank-driven internal rotor",
        "turned by chain or belt, or no pump",
    ),
    Row((80,), r"pump_drive\.(engagement|end_clearance)", _tongue, "no tongue"),
    Row((81,), r"relief\.clearance", _pumped, NO_PUMP),
    Row((82,), r"relief\.(preload_length|opening_pressure)", _pumped, NO_PUMP),
    Row((64,), r"pickup_o_ring\.squeeze_against_(least|most)", _pumped, NO_PUMP),
    Row((83,), r"pickup\.floor_gap", lambda p: _pumped(p) and p.pump != "dry sump", "no wet sump"),
    Row((84,), r"jet\.1\.flow", lambda p: p.piston_jets, "no jets"),
    Row(
        (85,), r"pump\.housing_offset", lambda p: p.pump == "crank-driven internal rotor", "not on the crank"
    ),
)
