"""A bench book being filled: entries in order, with their ids, times, and the parts in place."""

from __future__ import annotations

import uuid
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from fitwright.model.dimension import Dimension
from fitwright.model.sheet import Sheet
from fitwright.records import kinds
from fitwright.records.entry import NewEntry
from tools.examples.amounts import plus, typed

NAMESPACE = uuid.UUID("3d1f6c52-5a0b-5b8e-9a55-0f3f4d0c7b11")
"""Namespace of the ids of example entries (UUIDv5)."""


@dataclass
class Book:
    """Entries of one example, written one after the other.

    `seconds` pass between two entries; `open` jumps to the next sitting's time.
    """

    example: str
    sheet: Sheet
    device: str
    entries: list[dict[str, Any]] = field(default_factory=list)
    build: str | None = None
    person: str | None = None
    clock: datetime = datetime(2025, 2, 3, 8, 0, tzinfo=UTC)
    seconds: int = 14
    _in_place: dict[str, str] = field(default_factory=dict)
    _times_named: Counter[str] = field(default_factory=Counter)
    _sitting: kinds.Sitting | None = None
    _zeros: dict[str, str] = field(default_factory=dict)

    def at(self, when: str) -> None:
        """Go on at this time, `2025-02-03 08:10`, which must not lie in the past."""
        moment = datetime.strptime(when, "%Y-%m-%d %H:%M").replace(tzinfo=UTC)
        if moment < self.clock:
            message = f"{self.example}: {when} lies before {self.clock:%Y-%m-%d %H:%M}"
            raise ValueError(message)
        self.clock = moment

    def wait(self, minutes: float) -> None:
        """Nothing is written for a while."""
        self.clock += timedelta(minutes=minutes)

    def write(self, body: kinds.Body, name: str, *, build: str | None = None) -> str:
        """Write an entry and return its id; `name` says what it is about."""
        entry = NewEntry(
            id=self.next_id(f"{body.kind}/{name}"),
            build=build,
            kind=body.kind,
            kind_version=body.version,
            body=body.model_dump(mode="json"),
            person=self.person,
            device=self.device,
        )
        self.append([entry])
        return entry.id

    def next_id(self, name: str) -> str:
        """An id that follows from what the next entry is about."""
        self._times_named[name] += 1
        return uuid.uuid5(NAMESPACE, f"{self.example}/{name}/{self._times_named[name]}").hex

    def append(self, new: Iterable[NewEntry]) -> None:
        """Write entries down, each at its time; what has no value is left out."""
        for entry in new:
            self.entries.append(
                {
                    "id": entry.id,
                    "build": entry.build,
                    "kind": entry.kind,
                    "kind_version": entry.kind_version,
                    "body": _without_nothing(entry.body),
                    "person": entry.person,
                    "device": entry.device,
                    "client_time": self.clock.strftime("%Y-%m-%dT%H:%M:%S.%fZ"),
                }
            )
            self.clock += timedelta(seconds=self.seconds)

    def shop(self, *bodies: kinds.Body) -> None:
        """Write entries that count for the whole shop, each named by its code or its own name."""
        for body in bodies:
            self.write(body, str(getattr(body, "code", None) or getattr(body, "name", "")))

    def tell(self, body: kinds.Body, name: str) -> str:
        """Write an entry of the build."""
        return self.write(body, name, build=self.build)

    # Parts and where they sit.

    def part(
        self,
        code: str,
        title: str,
        position: str | None = None,
        *,
        serial: str | None = None,
        origin: str | None = None,
    ) -> None:
        """A part, put into its position at once where one is named."""
        self.tell(kinds.Part(code=code, title=title, position=position, serial=serial, origin=origin), code)
        if position is not None:
            self._in_place[position] = code

    def take_out(self, position: str) -> str:
        """Take out what sits in a position; returns its code."""
        code = self._in_place.pop(position)
        self.tell(kinds.TakingOut(part=code, position=position), f"{code}/{position}")
        return code

    def fit(self, code: str, position: str) -> None:
        """Fit a part into a position."""
        self.tell(kinds.Fitting(part=code, position=position), f"{code}/{position}")
        self._in_place[position] = code

    def in_place(self, position: str) -> str:
        """The part that sits in a position."""
        return self._in_place[position]

    # Sittings, settings and readings.

    def sit(self, body: kinds.Sitting) -> None:
        """Begin a sitting; readings that follow belong to it."""
        self.person = body.typed_by or body.measured_by
        self._sitting = body
        self.tell(body, body.code)

    def set_gauge(self, code: str, instrument: str, **more: Any) -> None:  # noqa: ANN401 - fields of a setting
        """A gauge set to zero; what it shows too much is added to every size typed from it."""
        zero = more.pop("zero", None)
        size = more.pop("size", None)
        body = kinds.Setting(
            code=code,
            instrument=instrument,
            zero=typed(zero) if zero else None,
            size=typed(size) if size else None,
            **more,
        )
        self._zeros[code] = zero.split()[0] if zero else "0"
        self.write(body, code)

    def check_back(self, setting: str, drift: str) -> None:
        """The setting looked at again."""
        self.write(kinds.CheckBack(setting=setting, drift=typed(drift)), f"{setting}")

    def values(
        self,
        dimension_id: str,
        sizes: Sequence[str],
        unit: str,
        *,
        places: Sequence[str] | None = None,
        instrument: str | None = None,
        **more: Any,  # noqa: ANN401 - fields of a reading
    ) -> list[str]:
        """Sizes read at the places of a dimension, in the sheet's order unless said; returns the ids."""
        dimension = self.sheet.dimensions[dimension_id]
        where = places or [place.id for place in dimension.places]
        if len(where) != len(sizes):
            message = (
                f"{self.example}: {dimension_id} has {len(where)} places, and {len(sizes)} sizes are given"
            )
            raise ValueError(message)
        return [
            self._read(dimension, place, self._shown(dimension, f"{size} {unit}", instrument), more)
            for place, size in zip(where, sizes, strict=True)
        ]

    def _shown(self, dimension: Dimension, size: str, instrument: str | None) -> kinds.ValueObservation:
        """What the gauge shows for a size: its zero is typed with it, and taken off later."""
        code = instrument or self._instrument_for(dimension)
        setting = self._now.settings.get(code)
        number, unit = size.split(maxsplit=1)
        zero = self._zeros.get(setting or "", "0")
        shown = plus(number, zero) if float(zero) else number
        return kinds.ValueObservation(value=typed(shown, unit), instrument=code, setting=setting)

    def _instrument_for(self, dimension: Dimension) -> str:
        kinds_named = [kind for kind in dimension.instruments if kind in self._now.instruments]
        return self._now.instruments[kinds_named[0]]

    def gap(
        self,
        dimension_id: str,
        goes: str | None,
        does_not_go: str | None,
        *,
        place: str = "whole",
        **more: Any,  # noqa: ANN401 - fields of a reading
    ) -> None:
        """A gap tried with blades: `F2:0.40 F2:0.03` is a stack of two."""
        dimension = self.sheet.dimensions[dimension_id]
        tried = [
            kinds.BladeObservation(blades=tuple(goes.split()), answer="goes") if goes else None,
            kinds.BladeObservation(blades=tuple(does_not_go.split()), answer="does not go")
            if does_not_go
            else None,
        ]
        for observation in tried:
            if observation is not None:
                self._read(dimension, place, observation, more)

    def _read(
        self, dimension: Dimension, place: str, observation: kinds.Observation, more: dict[str, Any]
    ) -> str:
        if dimension.place(place) is None:
            message = f"{self.example}: {dimension.id} has no place {place}"
            raise ValueError(message)
        body = kinds.Reading(
            dimension=dimension.id,
            feature=dimension.feature,
            place=place,
            members=self._members(dimension),
            observation=observation,
            sitting=self._now.code,
            condition=dimension.condition,
            **more,
        )
        return self.tell(body, f"{dimension.id}@{place}")

    def _members(self, dimension: Dimension) -> dict[str, str]:
        positions = [position for name in dimension.through if (position := self._position(name))]
        if dimension.part is not None:
            positions = [dimension.part]
        return {each: self._in_place[each] for each in positions if each in self._in_place}

    def _position(self, name: str) -> str | None:
        return name if name in self.sheet.parts else self.sheet.dimensions[name].part

    @property
    def _now(self) -> kinds.Sitting:
        if self._sitting is None:
            message = f"{self.example}: a reading before the first sitting"
            raise ValueError(message)
        return self._sitting

    def stated(self, dimension_id: str, size: str, tolerance: str, by: str, place: str = "whole") -> None:
        """A size that somebody states."""
        dimension = self.sheet.dimensions[dimension_id]
        body = kinds.StatedSize(
            dimension=dimension.id,
            feature=dimension.feature,
            place=place,
            members=self._members(dimension),
            size=typed(size),
            tolerance=typed(tolerance),
            stated_by=by,
        )
        self.tell(body, f"{dimension.id}@{place}")

    # Words.

    def note(self, text: str, subject: str | None = None) -> None:
        """Words about something."""
        self.tell(kinds.Note(text=text, subject=subject), subject or "build")

    def eye_check(self, check: str, words: str | None = None, *, answer: bool = True) -> None:
        """A yes or no with words."""
        self.tell(kinds.EyeCheck(check=check, answer=answer, words=words), check)


def _without_nothing(value: Any) -> Any:  # noqa: ANN401 - any JSON
    if isinstance(value, Mapping):
        return {name: _without_nothing(each) for name, each in value.items() if each is not None}
    return [_without_nothing(each) for each in value] if isinstance(value, list) else value
