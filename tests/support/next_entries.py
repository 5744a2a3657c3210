"""Entries that a bench or an office might make next on the Corrie Five, at random."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from typing import Literal

from fitwright.records.kinds import (
    CheckBack,
    Choice,
    Fitting,
    LimitAdopted,
    Moved,
    Note,
    OilChosen,
    Part,
    PressureReading,
    ReadingsMoved,
    TakingOut,
    Typed,
    Withdrawal,
)
from fitwright.records.kinds import State as StateChange
from fitwright.records.projection import ReadingRecord
from tests.support.story import Story

_JOURNAL = re.compile(r"main\.\d\.journal")


class NextEntries:
    """Makes one entry after another; some of them make no sense, as in life."""

    def __init__(self, story: Story, seed: int) -> None:
        self.story, self.draw = story, random.Random(seed)

    def one(self) -> None:
        """The next entry, of some kind."""
        weights = [4 if kind == self.read.__name__ else 1 for kind in _KINDS]
        self._main = self.draw.randint(1, 6)
        self._build = self.story.bench().build
        getattr(self, self.draw.choices(_KINDS, weights)[0])()

    @property
    def _journal(self) -> str:
        return f"main.{self._main}.journal"

    @property
    def _shell(self) -> str:
        return f"main.{self._main}.shell_upper"

    def _some(self, wanted: Callable[[ReadingRecord], bool] = lambda record: True) -> ReadingRecord:
        effective = [each for each in self._build.readings.values() if each.effective and wanted(each)]
        return self.draw.choice(effective)

    def _some_journal(self) -> ReadingRecord:
        return self._some(lambda record: bool(_JOURNAL.fullmatch(record.dimension or "")))

    def read(self) -> None:
        place = self.draw.choice(self.story.sheet.dimensions[self._journal].places)
        text = f"{55.990 + self.draw.randint(0, 4) * 1e-3:.3f}"
        self.story.reads(self._journal, place.id, text, instrument="M3", setting="S-003")

    def correct(self) -> None:
        wrong = self._some_journal()
        reason = {"supersedes": wrong.entry.id, "reason": "misread, or another main's"}
        self.story.reads(self._journal, wrong.place, "55.991", instrument="M3", setting="S-003", **reason)

    def try_blade(self) -> None:
        self.story.tries("pump.end_gap", None, self.draw.choice(["F2:0.05", "F2:0.08"]), "goes")

    def withdraw(self) -> None:
        self.story.says(Withdrawal(entry=self._some().entry.id, reason="test"))

    def undo(self) -> None:
        kinds = ("withdrawal", "fitting", "state", "choice", "readings moved")
        done = [entry.id for entry in self.story.new if entry.kind in kinds]
        self.story.says(Withdrawal(entry=done[-1], reason="undo"))

    def move(self) -> None:
        record = self._some_journal()
        moved = Moved(
            entry=record.entry.id,
            dimension=self._journal,
            feature=self._journal,
            place=record.place,
            members=dict(record.members),
        )
        self.story.says(ReadingsMoved(moves=(moved,)))

    def choose(self) -> None:
        choices: list[Literal["use again", "keep both"]] = ["use again", "keep both"]
        choice = self.draw.choice(choices)
        self.story.says(Choice(choice=choice, entries=(self._some().entry.id,), reason="test"))

    def fit(self) -> None:
        part = self._build.occupant(self._shell) or self._shell
        self.story.says(Fitting(part=part, position=f"main.{self._main % 6 + 1}.shell_upper"))

    def take_out(self) -> None:
        part = self._build.occupant(self._shell)
        if part is not None:
            self.story.says(TakingOut(part=part, position=self._shell))

    def check_back(self) -> None:
        si = self.draw.choice([0.0, 1e-6, 12e-6])
        drift = Typed(typed=f"{si * 1e3:.3f}", unit="mm", decimals=3, si=si)
        setting = self.draw.choice(["S-003", "S-014", "S-015"])
        self.story.says(CheckBack(setting=setting, drift=drift), shop=True)

    def adopt(self) -> None:
        self.story.says(
            LimitAdopted(
                subject=f"main.{self._main}.running_clearance",
                source="bench_rules",
                upper=Typed(typed="0.056", unit="mm", decimals=3, si=56e-6),
                adopted_by="builder",
                reason="test",
            )
        )

    def declare_used(self) -> None:
        crank = self._build.occupant("crank") or "crank"
        self.story.says(Part(code=crank, title="Crank", used=True))

    def rework(self) -> None:
        crank = self._build.occupant("crank") or "crank"
        change = StateChange(
            code="RX", change="rework", part=crank, dimensions=(self._journal,), words="polished"
        )
        self.story.says(change)

    def read_pressure(self) -> None:
        pressure = self.draw.randint(5, 50) * 1e4
        self.story.says(
            PressureReading(
                angular_speed=Typed(typed="900", unit="rpm", decimals=0, si=94.24777960769379),
                oil_temperature=Typed(typed="92", unit="degC", decimals=0, si=365.15),
                gauge_reading=Typed(typed=f"{pressure / 1e5:.1f}", unit="bar", decimals=1, si=pressure),
            )
        )

    def choose_oil(self) -> None:
        self.story.says(OilChosen(grade=self.draw.choice(["30", "10W-40"])))

    def note(self) -> None:
        self.story.says(Note(text="nothing"))


_KINDS = [name for name, made in vars(NextEntries).items() if callable(made) and not name.startswith("_")]
_KINDS.remove("one")
