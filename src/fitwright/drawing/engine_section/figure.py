"""The figure of an engine: everything that both views need to know before a line is drawn.

Millimetres; the crank's axis is the origin. `along` positions count from the first crankpin towards
the flywheel. What a sheet does not state follows from bore and stroke in usual proportions.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import cos, pi, sin, sqrt

from fitwright.drawing.engine_section.outline import Point, towards
from fitwright.drawing.engine_section.sizes import Sizes, sizes_of
from fitwright.model.engine import Layout
from fitwright.model.sheet import Sheet
from fitwright.model.throws import Crank, Throw, crank_of_sheet

RIGHT_ANGLE = pi / 2


def pin_height(stroke: float, rod_length: float, after_top: float) -> float:
    """Height of the piston pin above the crank's axis, along the cylinder.

    >>> round(pin_height(80.0, 140.0, 0.0), 3), round(pin_height(80.0, 140.0, pi), 3)
    (180.0, 100.0)
    """
    throw = stroke / 2
    across = throw * sin(after_top)
    return throw * cos(after_top) + sqrt(max(rod_length**2 - across**2, 0.0))


@dataclass(frozen=True)
class Figure:
    """An engine to be drawn."""

    sheet: Sheet
    sizes: Sizes
    crank: Crank
    crank_angle: float

    @property
    def layout(self) -> Layout:
        """The layout of the sheet."""
        return self.sheet.engine.layout

    # What kind of engine it is

    @cached_property
    def air_cooled(self) -> bool:
        """Whether the barrels have fins."""
        return self.sheet.engine.cooling in {"air", "oil"}

    @property
    def two_stroke(self) -> bool:
        """Whether ports do the work of valves."""
        return self.layout.valve_train == "two-stroke"

    @property
    def side_valve(self) -> bool:
        """Whether the valves stand beside the bore."""
        return self.layout.valve_train == "side valve"

    @property
    def pushrods(self) -> bool:
        """Whether pushrods and rockers work the valves."""
        return self.layout.valve_train == "pushrod"

    @property
    def twin_cams(self) -> bool:
        """Whether each head has a camshaft for each side."""
        return self.layout.valve_train == "double overhead camshafts"

    @property
    def overhead_cams(self) -> bool:
        """Whether camshafts lie above the valves; so too where the sheet does not say."""
        return not (self.two_stroke or self.side_valve or self.pushrods)

    @property
    def rockers(self) -> bool:
        """Whether rockers stand between one overhead camshaft and its valves."""
        return (
            self.overhead_cams and not self.twin_cams and self.layout.valve_adjustment in {"screws", "none"}
        )

    @property
    def rolling(self) -> bool:
        """Whether the crank runs in balls and rollers."""
        return self.layout.bearings == "rolling"

    @property
    def flat(self) -> bool:
        """Whether two banks lie opposite."""
        return self.layout.arrangement == "flat"

    @property
    def banks(self) -> int:
        """Number of banks."""
        return len(self.crank.axes)

    @property
    def clutch_on_crank(self) -> bool:
        """Whether flywheel and damper sit on the crank's ends."""
        return self.layout.arrangement in {"inline", "vee", "flat"} or "flywheel" in self.sheet.parts

    @property
    def pump(self) -> str:
        """What pumps the oil."""
        return self.layout.pump or "none"

    @property
    def dry_sump(self) -> bool:
        """Whether the oil lies in a tank and not under the crank."""
        return self.pump == "dry sump"

    # Lengths along the crank

    @cached_property
    def rods_on_pin(self) -> int:
        """Rods side by side on one crankpin."""
        return len(self.crank.throws) // self.crank.pins

    @cached_property
    def throw_pitch(self) -> float:
        """From one crankpin to the next."""
        bore = self.sizes.bore
        pitch = bore * (1.42 if self.air_cooled else 1.23)
        if self.banks > 1 and self.rods_on_pin == 1:
            pitch *= 0.5 if self.flat else 0.62
        return max(pitch, 0.42 * self.sizes.main_journal + (0.5 if self.rods_on_pin > 1 else 0.3) * bore)

    @cached_property
    def main_width(self) -> float:
        """Width of a main bearing's housing."""
        return self.throw_pitch * (0.22 if self.rods_on_pin > 1 else 0.27)

    @cached_property
    def pin_width(self) -> float:
        """Width of a crankpin between its webs."""
        return self.throw_pitch * (0.47 if self.rods_on_pin > 1 else 0.33)

    @cached_property
    def mains(self) -> tuple[float, ...]:
        """Where the main bearings stand."""
        pins, mains = self.crank.pins, self.layout.mains
        if mains == 1:
            return (self.boundary(pins),)
        inside = min(mains, pins + 1)
        found = [self.boundary(round(index * pins / (inside - 1))) for index in range(inside)]
        return (
            *found,
            *(found[-1] + 0.7 * self.throw_pitch * (extra + 1) for extra in range(mains - inside)),
        )

    def boundary(self, index: int) -> float:
        """Where a main bearing before pin `index` stands, or would stand."""
        return (index - 0.5) * self.throw_pitch

    def rod_place(self, throw: Throw) -> float:
        """Where a rod (and its cylinder) stands along the crank."""
        aside = 0.0
        if self.rods_on_pin > 1:
            aside = self.pin_width / 4 * (1 if throw.bank else -1)
        return throw.pin * self.throw_pitch + aside

    @cached_property
    def front(self) -> float:
        """Front face of the block."""
        first = min(self.rod_place(throw) for throw in self.crank.throws) - 0.5 * self.wall_pitch
        return min(self.mains[0] - 0.5 * self.main_width, first)

    @cached_property
    def rear(self) -> float:
        """Rear face of the block."""
        last = max(self.rod_place(throw) for throw in self.crank.throws) + 0.5 * self.wall_pitch
        return max(self.mains[-1] + 0.5 * self.main_width, last)

    @cached_property
    def wall_pitch(self) -> float:
        """A bore with the walls that it needs."""
        return self.sizes.bore * (1.42 if self.air_cooled else 1.28)

    # Lengths across the crank

    @property
    def radius(self) -> float:
        """Throw of the crank."""
        return self.sizes.stroke / 2

    @cached_property
    def shell(self) -> float:
        """Wall of a shell or lining, thick enough to be seen."""
        return 0.03 * self.sizes.bore

    @cached_property
    def big_end(self) -> float:
        """Outer radius of a rod's big end."""
        return self.sizes.rod_journal / 2 + self.shell + 0.085 * self.sizes.bore

    @cached_property
    def pin_cheek(self) -> float:
        """Radius of a web about its crankpin."""
        return self.sizes.rod_journal / 2 + 0.05 * self.sizes.bore

    @cached_property
    def main_cheek(self) -> float:
        """Radius of a web about the main journal."""
        return self.sizes.main_journal / 2 + 0.05 * self.sizes.bore

    @cached_property
    def counterweight(self) -> float:
        """Radius of the counterweights; below the piston they must pass its skirt."""
        under_skirt = pin_height(self.sizes.stroke, self.sizes.rod_length, pi) - 0.32 * self.sizes.bore
        return max(min(self.radius + 0.28 * self.sizes.bore, under_skirt), self.main_cheek)

    @cached_property
    def swing(self) -> float:
        """Radius that rods and webs sweep."""
        return max(self.radius + self.big_end, self.radius + self.pin_cheek, self.counterweight)

    @cached_property
    def case(self) -> float:
        """Inner radius of the crankcase."""
        return self.swing + 0.07 * self.sizes.bore

    @property
    def deck(self) -> float:
        """Height of the deck above the crank's axis."""
        return self.sizes.deck_height

    @cached_property
    def bore_foot(self) -> float:
        """Where the bore ends, below."""
        lowest = pin_height(self.sizes.stroke, self.sizes.rod_length, pi)
        return min(
            max(lowest - 0.16 * self.sizes.bore, 0.55 * self.case), self.deck - 0.9 * self.sizes.stroke
        )

    @cached_property
    def gasket(self) -> float:
        """Thickness of the head gasket, thick enough to be seen."""
        return 0.018 * self.sizes.bore

    @property
    def face(self) -> float:
        """Lower face of the head."""
        return self.deck + self.gasket

    def after_top(self, throw: Throw) -> float:
        """How far a cylinder is past the top of its firing stroke."""
        return self.crank.after_top(throw, self.crank_angle)

    def piston_pin(self, throw: Throw) -> float:
        """Height of a piston pin along its cylinder."""
        return pin_height(self.sizes.stroke, self.sizes.rod_length, self.after_top(throw))

    def crankpin(self, throw: Throw) -> Point:
        """Where a crankpin stands, seen from the nose."""
        return towards((0.0, 0.0), self.crank.pin_direction(throw, self.crank_angle), self.radius)

    def throw_of(self, pin: int) -> Throw:
        """A throw on a pin; that of the bank which is drawn cut, where it has one there."""
        on_pin = [throw for throw in self.crank.throws if throw.pin == pin]
        return max(on_pin, key=lambda throw: throw.bank)


def figure_of(sheet: Sheet, crank_angle: float) -> Figure:
    """The figure of an engine, its crank turned by an angle [rad] from cylinder 1 at its top."""
    return Figure(sheet, sizes_of(sheet), crank_of_sheet(sheet), crank_angle)
