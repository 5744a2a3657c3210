"""The small engine with its order of work in a shop of its own, gone through up to what a test is about."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from fitwright.bench.steps import step_done, step_released
from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.bench.work_taking import WorkTaking
from fitwright.records import kinds
from fitwright.records.kinds import Body, BuildStarted
from fitwright.wiring import Shop, Written, open_shop
from tests.support.assembly import ASSEMBLY, newton_metres
from tests.support.small_sheet import SHEET, shop, sitting

BUILD = "small"
START = datetime(2031, 5, 4, 9, 0, tzinfo=UTC)
BUILDER, SECOND = "builder", "second"
PINS = {BUILDER: "2468", SECOND: "13579"}


class Clock:
    """A clock that a test moves on, or back."""

    def __init__(self) -> None:
        self.now = START

    def __call__(self) -> datetime:
        """The time now."""
        return self.now

    def goes_on(self, **by: float) -> None:
        """Time passes; less than nothing sets the clock back."""
        self.now += timedelta(**by)


class GuardedShop:
    """A shop with the small engine, and somebody who works on it; `wired` is what is tested."""

    def __init__(self, folder: Path, *, people: int = 1) -> None:
        self.folder, self.clock = folder, Clock()
        self.wired = open_shop(folder, clock=self.clock)
        self.says(*shop(), build=None)
        if people > 1:
            self.says(kinds.Person(code=SECOND, name="Second builder"), build=None)
        self.wired.start_build(BUILD, SHEET + ASSEMBLY, BuildStarted(code=BUILD, title="Small", sheet=""))
        self.says(sitting())

    def says(self, *bodies: Body, build: str | None = BUILD, person: str | None = BUILDER) -> Written:
        """Write entries as they are."""
        return self.wired.write([self.wired.entry(body, build=build, person=person) for body in bodies])

    def another(self) -> Shop:
        """The same shop opened by another program."""
        return open_shop(self.folder, clock=self.clock, create=False)

    def set_pins(self) -> None:
        """Everybody sets a PIN."""
        for person in self.wired.state.people:
            self.wired.write([self.wired.pin_entry(person, PINS[person])])

    def taking(self, person: str = BUILDER) -> WorkTaking:
        """Who enters work, at the time of the clock."""
        return WorkTaking(person=person, now=self.clock.now)

    def done(self, step: str, person: str = BUILDER) -> Written:
        """Record a step as done."""
        return self.wired.write(step_done(self.wired.bench(BUILD), step, self.taking(person)).entries)

    def releases(self, step: str, person: str = BUILDER, pins: dict[str, str] | None = None) -> Written:
        """Release a hold point."""
        made = step_released(self.wired.bench(BUILD), step, self.taking(person)).entries
        return self.wired.write(made, pins=pins)

    def reads(self, dimension: str, place: str | None, text: str) -> None:
        """Take a value."""
        gauge, setting = {"fitted": ("B", "S-BM")}.get(dimension, ("M", "S-M"))
        taking = Taking(instrument=gauge, setting=setting, answers=Keep())
        taken = take_value(self.wired.bench(BUILD), dimension, place, text, taking)
        assert isinstance(taken, Taken)
        self.wired.write(taken.entries)

    def reads_clearance(self, fitted: str = "55.500") -> None:
        """The running clearance, within its limits unless the bore is another."""
        self.reads("fitted", None, fitted)
        for place in ("front", "rear"):
            self.reads("journal", place, "55.450")

    def tightens(self, group: str, *, upto: int | None = None) -> None:
        """All fasteners of a group through its passes, as the sheet says."""
        found = self.wired.bench(BUILD).sheet.tightening_groups[group]
        for number, each in enumerate(found.passes[:upto], start=1):
            stretch = None
            if each.stretch_low is not None:
                stretch = kinds.Typed(typed="0.150", unit="mm", decimals=3, si=0.150e-3)
            torque = newton_metres(each.torque.si) if each.torque is not None else None
            self.says(
                kinds.Tightening(
                    group=group,
                    fasteners=tuple(each.id for each in found.fasteners),
                    number=number,
                    torque=torque,
                    stretch=stretch,
                    performed_by=BUILDER,
                )
            )

    def lays_crank(self) -> None:
        """Everything that the step `crank_in` asks for, and the step."""
        self.reads_clearance()
        self.tightens("caps")
        self.says(
            kinds.ConsumableUsed(consumable="paste", step="crank_in", batch="B1"),
            kinds.EyeCheck(check="bench.turns", answer=True),
            kinds.Photo(digest="0" * 64, media_type="image/png", subject="crank_in/arrows"),
        )
        self.done("crank_in")

    def comes_to_hold(self) -> None:
        """Everything up to the hold point `bottom_end`, done and not released."""
        self.lays_crank()
        self.tightens("rods")
        self.done("rods_on")
        self.says(kinds.EyeCheck(check="bench.leaks", answer=False))
        self.done("bottom_end")


class Keep(dict[str, str]):
    """Answers every question with keeping what was typed."""

    def get(self, key: str, default: str | None = None) -> str | None:  # type: ignore[override]
        """Keep it."""
        del key, default
        return "keep"
