"""The plan of a sheet: every answer completed, and what follows from it for the blocks."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from fitwright.quantity import Metre, Radian
from fitwright.starter import usual
from fitwright.starter.answers import Answers, usual_cylinders
from fitwright.starter.family import Family, numbered

COMPETITION = frozenset({"sprint", "hill climb", "track", "rally", "endurance"})
"""Duties for which the trade takes the closer of two rules of thumb."""

_VALVES = {2: (1, 1), 3: (2, 1), 4: (2, 2), 5: (3, 2)}
_SIDES = ("inlet", "exhaust")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Completed answers. `guessed` names the sizes that nobody gave; the sheet marks each of them."""

    name: str
    engine_id: str
    units: str
    only: str
    duty: str
    aspiration: str
    cooling: str
    piston: str
    piston_pin: str
    arrangement: str
    cylinders: int
    bank_angle: Radian | None
    mains: int
    rods_per_pin: int
    bearings: str
    block_material: str
    head_material: str
    valve_train: str
    valves_per_cylinder: int
    valve_adjustment: str
    cam_drive: str
    rear_seal: str
    piston_jets: bool
    pump: str
    pump_stages: int
    bore: Metre
    stroke: Metre
    main_journal: Metre
    rod_journal: Metre
    rod_length: Metre
    compression_height: Metre
    guessed: frozenset[str] = field(default_factory=frozenset)

    @property
    def competition(self) -> bool:
        """Whether the closer of two rules of thumb is taken."""
        return self.duty in COMPETITION

    @property
    def boosted(self) -> bool:
        """Whether more than the atmosphere fills the cylinders."""
        return self.aspiration != "naturally aspirated"

    @property
    def air_cooled(self) -> bool:
        """Whether barrels and head run as hot as air leaves them (oil cooling counts as air)."""
        return self.cooling != "water"

    @property
    def plain(self) -> bool:
        """Whether the crank runs in shells or white metal."""
        return self.bearings != "rolling"

    @property
    def shells(self) -> bool:
        """Whether the crank runs in shells."""
        return self.bearings == "plain"

    @property
    def two_stroke(self) -> bool:
        """Whether ports and the crankcase do the work of valves."""
        return self.valve_train == "two-stroke"

    @property
    def side_valve(self) -> bool:
        """Whether the valves stand in the block beside the bore."""
        return self.valve_train == "side valve"

    @property
    def overhead_valves(self) -> bool:
        """Whether valves hang in the head, above the pistons."""
        return not (self.two_stroke or self.side_valve)

    @property
    def split_case(self) -> bool:
        """Whether the mains lie between crankcase halves, without caps."""
        return self.arrangement == "flat"

    @property
    def clutch_on_crank(self) -> bool:
        """Whether flywheel, clutch housing and damper sit on the crank's ends."""
        return self.arrangement in {"inline", "vee", "flat"}

    @property
    def rockers(self) -> bool:
        """Whether rockers or finger followers work the valves."""
        return self.valve_train == "pushrod" or (
            self.overhead_cams and self.valve_adjustment in {"screws", "none"}
        )

    @property
    def followers(self) -> bool:
        """Whether followers (tappets, buckets) slide in bores."""
        return not self.two_stroke and (self.valve_train in {"pushrod", "side valve"} or not self.rockers)

    @property
    def banks(self) -> tuple[str, ...]:
        """Names of the banks as seen from the nose; none where there is one."""
        return ("left", "right") if self.arrangement in {"vee", "flat"} else ()

    @property
    def each_cylinder(self) -> Family:
        """One member for each cylinder (and rod, piston, pin)."""
        return Family((numbered(self.cylinders),))

    @property
    def each_main(self) -> Family:
        """One member for each main bearing, from the nose."""
        return Family((numbered(self.mains),))

    @property
    def pins(self) -> int:
        """Number of crankpins."""
        return self.cylinders // self.rods_per_pin

    @property
    def sides(self) -> tuple[str, ...]:
        """Sides of the head that have valves."""
        return () if self.two_stroke else _SIDES

    def valve_letters(self, side: str) -> tuple[str, ...]:
        """Letters of the valves of one cylinder and side; none where there is a single one."""
        count = _VALVES[self.valves_per_cylinder][_SIDES.index(side)]
        return tuple("abc"[:count]) if count > 1 else ()

    def each_valve(self, side: str) -> Family:
        """One member for each valve of a side."""
        letters = self.valve_letters(side)
        return Family((numbered(self.cylinders), letters) if letters else (numbered(self.cylinders),))

    def valve_tail(self, side: str) -> str:
        """What numbers a valve in an id: `1.inlet.a` as a template."""
        return f"{{0}}.{side}.{{1}}" if self.valve_letters(side) else f"{{0}}.{side}"

    def valve_title(self, side: str) -> str:
        """How a valve is called: `Cylinder 1 inlet valve a` as a template."""
        return f"Cylinder {{0}} {side} valve" + (" {1}" if self.valve_letters(side) else "")

    @property
    def cam_groups(self) -> tuple[tuple[str, ...], ...]:
        """How the camshafts are told apart: by bank, by side, by both or not at all."""
        if self.valve_train in {"pushrod", "side valve", "two-stroke"}:
            return ()
        groups = (self.banks,) if self.banks else ()
        return (*groups, _SIDES) if self.valve_train == "double overhead camshafts" else groups

    @property
    def overhead_cams(self) -> bool:
        """Whether the camshafts lie in the head."""
        return self.valve_train in {"overhead camshaft", "double overhead camshafts"}

    @property
    def cam_bearings(self) -> int:
        """Bearings of one camshaft, as engines of this layout usually have them."""
        if self.valve_train in {"pushrod", "side valve"}:
            return max(2, min(self.mains, 5))
        return self.cylinders // max(1, len(self.banks)) + 1


def plan_of(answers: Answers) -> Plan:
    """Complete the answers: what was not answered follows from the rest, or is scaled from the bore."""
    cylinders = usual_cylinders(answers)
    main, pin = (0.40, 0.40) if answers.bearings == "rolling" else (0.67, 0.56)
    sizes = {
        "main_journal": _size(main * answers.bore, answers.units),
        "rod_journal": _size(pin * answers.bore, answers.units),
        "rod_length": _size(1.75 * answers.stroke, answers.units),
        "compression_height": _size(0.38 * answers.bore, answers.units),
    }
    guessed = frozenset(name for name in sizes if getattr(answers, name) is None)
    taken = {name: guess if name in guessed else getattr(answers, name) for name, guess in sizes.items()}
    two_stroke = answers.valve_train == "two-stroke"
    return Plan(
        name=answers.name,
        engine_id=answers.engine_id or _id_of(answers.name),
        units=answers.units,
        only=answers.only,
        duty=answers.duty,
        aspiration=answers.aspiration,
        cooling=answers.cooling,
        piston=answers.piston,
        piston_pin=answers.piston_pin,
        arrangement=answers.arrangement,
        cylinders=cylinders,
        bank_angle=usual.bank_angle(answers),
        mains=answers.mains or usual.mains(answers, cylinders),
        rods_per_pin=usual.rods_per_pin(answers),
        bearings=answers.bearings,
        block_material=answers.block_material or usual.block_material(answers),
        head_material=answers.head_material or usual.head_material(answers),
        valve_train=answers.valve_train,
        valves_per_cylinder=0 if two_stroke else answers.valves_per_cylinder,
        valve_adjustment="none" if two_stroke else answers.valve_adjustment or usual.adjustment(answers),
        cam_drive=answers.cam_drive or usual.cam_drive(answers),
        rear_seal=answers.rear_seal or usual.rear_seal(answers),
        piston_jets=(answers.piston_jets or usual.piston_jets(answers)) == "yes",
        pump=answers.pump or usual.pump(answers),
        pump_stages=(answers.pump_stages or 2) if answers.pump == "dry sump" else 0,
        bore=answers.bore,
        stroke=answers.stroke,
        guessed=guessed,
        **taken,
    )


def _id_of(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:64].strip("-") or "engine"


def _size(guess: Metre, units: str) -> Metre:
    """A guessed size as a shop would name one: whole millimetres, or sixteenths of an inch."""
    step = 0.001 if units == "mm" else 0.0254 / 16
    return round(guess / step) * step
