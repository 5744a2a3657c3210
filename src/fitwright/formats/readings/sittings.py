"""To which sitting a row belongs: the table has no column for it, but says who, when and with what."""

from __future__ import annotations

from datetime import UTC, datetime, time

from fitwright.bench.context import Bench
from fitwright.records.entry import Entry
from fitwright.records.kinds import Sitting


def moment_of(text: str) -> datetime:
    """A date or a time as a moment; without a time zone it is taken as UTC, a date as its end.

    Raises
    ------
    ValueError
        If it is neither.
    """
    found = datetime.fromisoformat(text)
    if len(text) <= len("2031-05-04"):
        found = datetime.combine(found.date(), time.max)
    return found if found.tzinfo is not None else found.replace(tzinfo=UTC)


class Sittings:
    """The sittings of a build, asked for by person, setting and time."""

    def __init__(self, bench: Bench) -> None:
        self._all = [(held.body, _began(held.entry)) for held in bench.build.sittings.values()]
        self._candidates: dict[tuple[str | None, str | None, str | None], list[tuple[Sitting, datetime]]] = {}

    def find(
        self, *, measured_by: str | None, instrument: str | None, setting: str | None, taken_at: str
    ) -> str | None:
        """The last sitting of this person, in this setting, begun before the reading was taken.

        Without a time, the only one that fits; None where none fits or several do.
        """
        key = (measured_by, instrument, setting)
        candidates = self._candidates.get(key)
        if candidates is None:
            candidates = self._fitting(*key)
            self._candidates[key] = candidates
        if not taken_at:
            return candidates[0][0].code if len(candidates) == 1 else None
        moment = moment_of(taken_at)
        begun = [sitting.code for sitting, began in candidates if began <= moment]
        return begun[-1] if begun else None

    def _fitting(
        self, measured_by: str | None, instrument: str | None, setting: str | None
    ) -> list[tuple[Sitting, datetime]]:
        of_person = [each for each in self._all if measured_by in (None, each[0].measured_by)]
        if setting is None:
            return of_person
        in_setting = [each for each in of_person if each[0].settings.get(instrument or "") == setting]
        return in_setting or of_person


def _began(entry: Entry) -> datetime:
    return moment_of(entry.client_time or entry.committed_at)
