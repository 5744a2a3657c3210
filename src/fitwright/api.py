"""The notebook face: the same questions as on the pages and in the terminal, for Python.

>>> import tempfile
>>> from pathlib import Path
>>> from fitwright import api
>>> folder = Path(tempfile.mkdtemp()) / "demo"
>>> api.prepare_demo(folder)
['corrie-five', 'brackengill-eleven']
>>> shop = api.open(folder)
>>> build = shop.build("corrie-five")
>>> fit = build.fit("main.4.running_clearance", state="as-received")
>>> fit.verdict.value, round(fit.value * 1e3, 3), round(fit.standard_uncertainty * 1e3, 4)
('outside', 0.038, 0.0019)
>>> [each.id for each in build.fits(state="as-received") if each.verdict == "outside"][:2]
['main.4.running_clearance', 'rod.4.running_clearance']
>>> print(build.working("main.4.running_clearance").steps[0].title)
Readings of Main 4 housing
>>> oil = build.oil(bands=False)
>>> oil.title, oil.points[0].title, oil.points[0].gauge_pressure.best > 1e5
('Oil of Corrie Five', 'hot idle', True)
>>> shop.close()

Everything is in SI. Beside shops, the physics itself can be asked: `propagate` (the law of propagation
of uncertainty), `judge_chain`, `study_by_variance`, `press_fit` and the rest of
`fitwright.physics`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from fitwright.assess.assembly.consequence import consequence_of
from fitwright.assess.assembly.results import (
    ConcessionStanding,
    ConsumableStanding,
    GroupStanding,
    Standing,
    StepStanding,
)
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import CycleFilms, Prediction
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.assess.settling import Settling
from fitwright.assess.working import Working, working_of
from fitwright.bench.consumables import ConsumableTyped, take_consumable
from fitwright.bench.context import Bench
from fitwright.bench.guarding_errors import GuardError, PinError
from fitwright.bench.loosenings import LooseningTyped, take_loosening
from fitwright.bench.new_sets import NewSetTyped, take_new_set
from fitwright.bench.permissions import PermissionTyped, grant_concession
from fitwright.bench.sittings import person_named
from fitwright.bench.steps import step_done, step_released
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.bench.tightenings import TighteningTyped, take_tightening
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.demo import prepare_demo
from fitwright.formats.assessment import fit_as_json
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.model.slips import Question
from fitwright.physics.fits.centring import centre_from_gaps
from fitwright.physics.fits.interference import press_fit
from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.gauge_study import study_by_ranges, study_by_variance
from fitwright.physics.metrology.propagation import InputQuantity, propagate
from fitwright.units import parse_quantity
from fitwright.wiring import Shop as WiredShop
from fitwright.wiring import open_shop

__all__ = [
    "Build",
    "CycleFilms",
    "GuardError",
    "InputQuantity",
    "OilPoint",
    "PinError",
    "Shop",
    "WhatIf",
    "centre_from_gaps",
    "judge_chain",
    "open",
    "parse_quantity",
    "prepare_demo",
    "press_fit",
    "propagate",
    "read_sheet",
    "study_by_ranges",
    "study_by_variance",
]


def open(folder: Path | str, *, create: bool = False) -> Shop:  # noqa: A001  (reads as api.open)
    """Open the shop that lives in a folder; `create` makes one where there is none."""
    return Shop(open_shop(Path(folder), create=create))


class Shop:
    """A shop opened for a notebook; a context manager that closes it again."""

    def __init__(self, wired: WiredShop) -> None:
        self._wired = wired

    def __enter__(self) -> Self:
        """The shop itself."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the shop."""
        self.close()

    def close(self) -> None:
        """Release the record."""
        self._wired.close()

    def builds(self) -> list[str]:
        """Codes of all builds, in the order in which they were started."""
        return list(self._wired.builds())

    def build(self, code: str) -> Build:
        """One build by its code."""
        self._wired.bench(code)
        return Build(self._wired, code)


@dataclass(frozen=True, slots=True)
class Build:
    """One build: its sheet, its verdicts, and readings taken for it."""

    _wired: WiredShop
    code: str

    @property
    def sheet(self) -> Sheet:
        """The revision of the sheet that this build is pinned to."""
        return self._wired.bench(self.code).sheet

    def assessment(self, state: str = "current") -> Assessment:
        """All verdicts, and what is not recorded; `state` is "current" or "as-received"."""
        return self._wired.assessment(self.code, State(state))

    def fits(self, state: str = "current") -> list[FitVerdict]:
        """Verdicts on every limited fit and dimension."""
        return list(self.assessment(state).verdicts.values())

    def fit(self, subject: str, state: str = "current") -> FitVerdict:
        """The verdict on one fit or limited dimension."""
        return self._wired.assessor(self.code, State(state)).verdict(subject)

    def working(self, subject: str, state: str = "current") -> Working:
        """How that verdict came about, step by step."""
        assessor = self._wired.assessor(self.code, State(state))
        return working_of(assessor.judge, assessor.verdict(subject))

    def what_settles(self, subject: str, state: str = "current") -> Settling | None:
        """What would settle an unproven fit; None where nothing is open."""
        return self._wired.assessor(self.code, State(state)).settling(subject)

    def oil(
        self,
        state: str = "current",
        *,
        what_if: WhatIf | None = None,
        also: Sequence[OilPoint] = (),
        bands: bool = True,
    ) -> Prediction:
        """The oil system predicted from what was measured: pressures, flows, films, what costs how much.

        `also` are operating points besides those of the sheet; they come last. Without `bands` the best
        estimate comes at once. `problem` in the answer says why there is none.
        """
        desk = self._wired.oil(self.code, State(state))
        return desk.banded(what_if, also) if bands else desk.best(what_if, also)

    def films_over_cycle(
        self, point: OilPoint, state: str = "current", *, what_if: WhatIf | None = None
    ) -> CycleFilms:
        """Films of mains and big ends over the cycle at an operating point, by the sheet's crank train.

        `problem` in the answer says why there are none; a bearing that touches has no number.
        """
        return self._wired.oil(self.code, State(state)).films_over_cycle(point, what_if)

    def rows(self, state: str = "current") -> list[dict[str, Any]]:
        """One plain dictionary for each verdict, ready for a table or a data frame."""
        return [fit_as_json(each, None) for each in self.fits(state)]

    def take(
        self,
        dimension: str,
        place: str | None,
        value: str,
        *,
        instrument: str | None = None,
        person: str | None = None,
        answers: dict[str, str] | None = None,
    ) -> list[FitVerdict] | Question:
        """Take a reading: durable when this returns, with the verdicts that it touched.

        A doubtful value comes back as a `Question` and is not taken; call again with
        `answers={question.key: "keep"}` to keep it as typed.
        """
        taking = Taking(person=person, instrument=instrument, answers=answers or {})
        taken = take_value(self._wired.bench(self.code), dimension, place, value, taking)
        return taken if isinstance(taken, Question) else self._write(taken)

    def take_blade(
        self, dimension: str, place: str | None, blade: str, answer: str, *, person: str | None = None
    ) -> list[FitVerdict]:
        """Take a blade's answer: "goes", "goes freely", "drags" or "does not go"."""
        bench = self._wired.bench(self.code)
        return self._write(take_blade(bench, dimension, place, blade, answer, Taking(person=person)))

    def work(self) -> Standing:
        """How the assembly stands: steps, tightening groups, permissions, what is open."""
        return self._wired.assembly(self.code)

    def tighten(
        self,
        group: str,
        fasteners: str = "all",
        *,
        person: str | None = None,
        answers: dict[str, str] | None = None,
        **said: str,
    ) -> GroupStanding | Question:
        """Enter a tightening, as `tighten("rods", "1a", torque="45 N m", stretch="0.15 mm", wrench="X2")`.

        `said` are the texts of `bench.tightenings.TighteningTyped`. What is doubtful, or beside the
        sheet's value, comes back as a `Question` and is not taken, as from `take`.
        """
        typed = TighteningTyped(group=group, fasteners=fasteners, **said)  # type: ignore[arg-type]
        taken = take_tightening(self._bench, typed, self._taking(person, answers))
        if isinstance(taken, Question):
            return taken
        self._wired.write(taken.entries)
        return self.work().groups[group]

    def loosen(
        self,
        group: str,
        fasteners: str = "all",
        *,
        because: str,
        person: str | None = None,
        answers: dict[str, str] | None = None,
    ) -> GroupStanding | Question:
        """Enter that fasteners were loosened: what was tightened before counts no longer."""
        typed = LooseningTyped(group=group, fasteners=fasteners, because=because)
        taken = take_loosening(self._bench, typed, self._taking(person, answers))
        if isinstance(taken, Question):
            return taken
        self._wired.write(taken.entries)
        return self.work().groups[group]

    def new_set(
        self,
        group: str,
        fasteners: str = "all",
        *,
        stem: str,
        origin: str = "",
        person: str | None = None,
        words: str = "",
    ) -> GroupStanding:
        """Enter new fasteners, as `new_set("rods", stem="RB2")`: RB2-1, RB2-2 and so on in their positions.

        For a group whose fasteners are parts of the sheet. Those that sat there are out, with their
        tightening.
        """
        typed = NewSetTyped(group=group, fasteners=fasteners, stem=stem, origin=origin, words=words)
        self._wired.write(take_new_set(self._bench, typed, self._taking(person)).entries)
        return self.work().groups[group]

    def use(
        self,
        consumable: str,
        *,
        person: str | None = None,
        answers: dict[str, str] | None = None,
        **said: str,
    ) -> ConsumableStanding | Question:
        """Enter that a consumable was used, as `use("sealant", step="sump.on", batch="A7")`."""
        typed = ConsumableTyped(consumable=consumable, **said)
        taken = take_consumable(self._bench, typed, self._taking(person, answers))
        if isinstance(taken, Question):
            return taken
        self._wired.write(taken.entries)
        return self.work().consumables[consumable]

    def done(self, step: str, *, person: str | None = None, words: str = "") -> StepStanding:
        """Enter that a step was done; raises `GuardError` while it waits for something."""
        taken = step_done(self._bench, step, self._taking(person), words=words)
        self._wired.write(taken.entries)
        return self.work().steps[step]

    def release(
        self, step: str, *, person: str, pin: str | None = None, later: bool = False, words: str = ""
    ) -> StepStanding:
        """Release a hold point by name, with that person's PIN once the shop has two people.

        Raises `GuardError` where its conditions do not hold or the PIN is not right.
        """
        taken = step_released(self._bench, step, self._taking(person), later=later, words=words)
        self._wired.write(taken.entries, pins=_pins(taken, pin))
        return self.work().steps[step]

    def concede(
        self,
        subject: str,
        *,
        because: str,
        person: str,
        pin: str | None = None,
        answers: dict[str, str] | None = None,
        **said: str,
    ) -> ConcessionStanding | Question:
        """Accept by name what does not meet a limit, as `concede("deck", highest="0.45 mm", ...)`.

        What it leads to is worked out now, and kept with it.
        """
        typed = PermissionTyped(subject=subject, because=because, **said)
        with self._wired.held():
            consequence = consequence_of(self._wired.assessor(self.code), subject)
        taken = grant_concession(self._bench, typed, self._taking(person, answers), consequence=consequence)
        if isinstance(taken, Question):
            return taken
        self._wired.write(taken.entries, pins=_pins(taken, pin))
        code = str(taken.entries[0].body["code"])
        return next(each for each in self.work().concessions if each.code == code)

    @property
    def _bench(self) -> Bench:
        return self._wired.bench(self.code)

    def _taking(self, person: str | None, answers: dict[str, str] | None = None) -> WorkTaking:
        who = person_named(self._wired.state, person) if person is not None else None
        return WorkTaking(person=who, answers=answers or {}, now=self._wired.clock())

    def _write(self, taken: Taken) -> list[FitVerdict]:
        written = self._wired.write(taken.entries)
        return self._wired.verdicts(self.code, sorted(written.touched))


def _pins(taken: WorkTaken, pin: str | None) -> dict[str, str]:
    """The PIN of who signs, where one was given."""
    signer = taken.entries[0].person
    return {signer: pin} if signer is not None and pin is not None else {}
