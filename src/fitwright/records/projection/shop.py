"""The state of the shop: people, gauges and what they were set against, blades, settings, builds."""

from __future__ import annotations

from collections.abc import Iterable
from functools import singledispatchmethod
from typing import Self

from fitwright.records import kinds
from fitwright.records.entry import Entry, NewEntry, as_if_written
from fitwright.records.kinds import Body
from fitwright.records.projection.ledger import Ledger, Recorded
from fitwright.records.registry import SHOP_KINDS, body_of

_OWN_KINDS = SHOP_KINDS | {kinds.BuildStarted.kind}
_UNFILED_KINDS = {kinds.Note.kind, kinds.Photo.kind}


class ShopState:
    """The shop, from all entries of its kinds, whatever build they were filed under.

    Notes and photos are those filed under no build. `apply` takes entries in order of `seq`. Only what
    is effective is here, each thing with a `code` in its newest state. `blades` are named `set:marking`.
    """

    def __init__(self) -> None:
        self.seq = 0
        self.ledger = Ledger()
        self._start_over()

    def _start_over(self) -> None:
        self.people: dict[str, Recorded[kinds.Person]] = {}
        self.instruments: dict[str, Recorded[kinds.Instrument]] = {}
        self.calibrations: dict[str, Recorded[kinds.Calibration]] = {}
        self.all_calibrations: dict[str, list[Recorded[kinds.Calibration]]] = {}
        self.settings: dict[str, Recorded[kinds.Setting]] = {}
        self.check_backs: dict[str, list[Recorded[kinds.CheckBack]]] = {}
        self.blade_sets: dict[str, Recorded[kinds.BladeSet]] = {}
        self.blades: dict[str, kinds.BladeOnShelf] = {}
        self.studies: dict[str, Recorded[kinds.GaugeStudy]] = {}
        self.pins: dict[str, Recorded[kinds.PinSet]] = {}
        self.shop_settings: dict[str, Recorded[kinds.ShopSetting]] = {}
        self.builds: dict[str, Recorded[kinds.BuildStarted]] = {}
        self.notes: list[Recorded[kinds.Note]] = []
        self.photos: list[Recorded[kinds.Photo]] = []

    @classmethod
    def replay(cls, entries: Iterable[Entry]) -> Self:
        """The state after all these entries, in order of `seq`."""
        state = cls()
        for entry in entries:
            if state._concerns(entry):
                state._add(entry)
        state._rebuild()
        return state

    def as_of(self, seq: int) -> Self:
        """The state as it was after the entry with this seq; later entries may be applied to it."""
        return self._until(self.ledger, seq)

    @classmethod
    def _until(cls, ledger: Ledger, seq: int) -> Self:
        state = cls()
        for entry, body in ledger.recorded.values():
            if entry.seq <= seq:
                state.ledger.add(entry, body)
                state.seq = entry.seq
        state._rebuild()
        return state

    def supposing(self, entries: Iterable[NewEntry]) -> Self:
        """The state that it would be with these entries written; this one stays as it is."""
        return self._with(self.ledger, self.seq, entries)

    @classmethod
    def _with(cls, ledger: Ledger, seq: int, entries: Iterable[NewEntry]) -> Self:
        state = cls()
        for entry, body in ledger.recorded.values():
            state.ledger.add(entry, body)
        state.seq = seq
        for new in entries:
            entry = as_if_written(new, state.seq + 1)
            if state._concerns(entry):
                state._add(entry)
        state._rebuild()
        return state

    def apply(self, entry: Entry) -> None:
        """Take the next entry."""
        if not self._concerns(entry):
            return
        body, refers = self._add(entry)
        if refers:
            self._rebuild()
        else:
            self._take(body, entry)

    def blade(self, name: str) -> kinds.BladeOnShelf | None:
        """A blade by its name, `set:marking` (`F2:0.06`)."""
        return self.blades.get(name)

    def shop_setting(self, name: str) -> str | None:
        """The value of a shop setting, where the shop has set it."""
        held = self.shop_settings.get(name)
        return None if held is None else held.body.value

    def calibration_of(self, instrument: str, *, at: int | None = None) -> Recorded[kinds.Calibration] | None:
        """The last calibration of an instrument, or the last one up to the entry with seq `at`."""
        for held in reversed(self.all_calibrations.get(instrument, [])):
            if at is None or self.ledger.order(held.entry.id) <= at:
                return held
        return None

    def counts_everywhere(self, entry: Entry | NewEntry) -> bool:
        """Whether an entry that was taken speaks for every build, whatever build it was filed under."""
        kind, body = entry.kind, entry.body
        while kind == kinds.Withdrawal.kind:
            held = self.ledger.recorded.get(str(body.get("entry")))
            if held is None:
                return False
            kind, body = held.entry.kind, held.entry.body
        return kind in SHOP_KINDS

    def _concerns(self, entry: Entry) -> bool:
        if entry.kind == kinds.Withdrawal.kind:
            return str(entry.body.get("entry")) in self.ledger
        return entry.kind in _OWN_KINDS or (entry.build is None and entry.kind in _UNFILED_KINDS)

    def _add(self, entry: Entry) -> tuple[Body, bool]:
        body = body_of(entry.kind, entry.kind_version, entry.body)
        self.seq = entry.seq
        return body, self.ledger.add(entry, body)

    def _rebuild(self) -> None:
        self.ledger.settle()
        self._start_over()
        for entry, body in self.ledger.in_order():
            if self.ledger.effective(entry.id):
                self._take(body, entry)

    @singledispatchmethod
    def _take(self, body: Body, entry: Entry) -> None:
        """Withdrawals have had their effect in the ledger; the rest each has its place."""

    @_take.register
    def _(self, body: kinds.PinSet, entry: Entry) -> None:
        self.pins[body.person] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.Person, entry: Entry) -> None:
        self.people[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.Instrument, entry: Entry) -> None:
        self.instruments[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.Calibration, entry: Entry) -> None:
        held = Recorded(entry, body)
        self.all_calibrations.setdefault(body.instrument, []).append(held)
        self.calibrations[body.instrument] = held

    @_take.register
    def _(self, body: kinds.Setting, entry: Entry) -> None:
        self.settings[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.CheckBack, entry: Entry) -> None:
        self.check_backs.setdefault(body.setting, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.BladeSet, entry: Entry) -> None:
        for blade in self._blades_of(body.code):
            del self.blades[blade]
        self.blade_sets[body.code] = Recorded(entry, body)
        self.blades |= {f"{body.code}:{blade.marking}": blade for blade in body.blades}

    def _blades_of(self, code: str) -> list[str]:
        held = self.blade_sets.get(code)
        return [] if held is None else list({f"{code}:{blade.marking}": None for blade in held.body.blades})

    @_take.register
    def _(self, body: kinds.GaugeStudy, entry: Entry) -> None:
        self.studies[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.ShopSetting, entry: Entry) -> None:
        self.shop_settings[body.name] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.Note, entry: Entry) -> None:
        self.notes.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Photo, entry: Entry) -> None:
        self.photos.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.BuildStarted, entry: Entry) -> None:
        self.builds[body.code] = Recorded(entry, body)
