"""What is open on the bench: the sheet, the shop and the build that readings go into."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.assess.evidence import members_of, occupant, occupants
from fitwright.assess.results import State
from fitwright.bench.errors import EmptyPositionError, UnknownNameError, WhichInstrumentError
from fitwright.model.dimension import Dimension, Place
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import Instrument, Sitting, ValueObservation
from fitwright.records.projection import BuildState, ShopState


@dataclass(frozen=True, slots=True)
class Bench:
    """A sheet with the states of its shop and build."""

    sheet: Sheet
    shop: ShopState
    build: BuildState

    def dimension(self, name: str) -> Dimension:
        """The dimension with this id; an unknown one is answered with the nearest."""
        found = self.sheet.dimensions.get(name)
        if found is None:
            raise UnknownNameError("dimension", name, near(name, self.sheet.dimensions))
        return found

    def place(self, dimension: Dimension, name: str | None) -> Place:
        """A place of a dimension; without a name, its only one."""
        if name is None and len(dimension.places) == 1:
            return dimension.places[0]
        found = dimension.place(name or "")
        if found is None:
            known = [place.id for place in dimension.places]
            raise UnknownNameError(f"place of {dimension.id}", name or "", known)
        return found

    def members(self, dimension: Dimension, *, during_rework: bool = False) -> dict[str, str]:
        """Through which physical parts a reading taken now goes (position -> part).

        In the middle of a rework one of them may be out: then it goes through those that are in place.
        """
        found = occupants(self.sheet, self.build, dimension, State.CURRENT)
        if found is None and during_rework:
            inside = {
                each.position: occupant(self.build, each.position, State.CURRENT)
                for each in members_of(self.sheet, dimension)
            }
            found = {position: part for position, part in inside.items() if part is not None}
        if not found:
            raise EmptyPositionError(dimension.title)
        return found

    def sitting(self, code: str | None) -> Sitting | None:
        """A sitting of this build by its code; without one, the last."""
        if code is None:
            return next((held.body for held in reversed(self.build.sittings.values())), None)
        held = self.build.sittings.get(code)
        if held is None:
            raise UnknownNameError("sitting", code, list(self.build.sittings))
        return held.body

    def instrument(self, dimension: Dimension, sitting: Sitting | None, code: str | None) -> Instrument:
        """The instrument named, or the one that the sitting has for this kind of dimension."""
        if code is not None:
            held = self.shop.instruments.get(code)
            if held is None:
                raise UnknownNameError("instrument", code, list(self.shop.instruments))
            return held.body
        chosen = sitting.instruments if sitting is not None else {}
        for kind in dimension.instruments:
            held = self.shop.instruments.get(chosen.get(kind, ""))
            if held is not None:
                return held.body
        return self._only_one_that_fits(dimension)

    def _only_one_that_fits(self, dimension: Dimension) -> Instrument:
        kinds = dimension.instruments
        fitting = [
            held.body for held in self.shop.instruments.values() if not kinds or held.body.type in kinds
        ]
        nominal = dimension.nominal.si if dimension.nominal is not None else None
        inside = [each for each in fitting if nominal is None or _in_range(each, nominal)]
        likely = inside or fitting  # a nominal may be a guess; a reading out of range is asked about
        if len(likely) == 1:
            return likely[0]
        used = self._used_last(dimension)
        if used is not None and used in fitting:
            return used
        wanted = " or ".join(kinds) or "instrument"
        raise WhichInstrumentError(wanted, dimension.id, [each.code for each in likely])

    def _used_last(self, dimension: Dimension) -> Instrument | None:
        """The gauge that the last reading of this dimension was taken with."""
        for record in reversed(self.build.readings_of(dimension.feature)):
            observation = record.body.observation
            if isinstance(observation, ValueObservation) and record.effective:
                held = self.shop.instruments.get(observation.instrument or "")
                return held.body if held is not None else None
        return None


def _in_range(instrument: Instrument, size: float) -> bool:
    low, high = instrument.range_low, instrument.range_high
    return (low is None or size >= low) and (high is None or size <= high)


def near(name: str, known: Iterable[str]) -> list[str]:
    """The known names that come nearest to a mistyped one."""
    return difflib.get_close_matches(name, list(known), n=3, cutoff=0.5)
