"""What a reading of a first start and a choice of oil share: what they correct, what entries they make."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from fitwright.bench.asking import Answered, answer_entry
from fitwright.bench.context import Bench
from fitwright.bench.errors import NoWordsError, UnknownNameError
from fitwright.records.entry import NewEntry
from fitwright.records.ids import new_id
from fitwright.records.kinds import OilChosen, PressureReading


@dataclass(frozen=True, slots=True, kw_only=True)
class OilTaking:
    """Who enters something and why, under which id, with which answers, and what it corrects."""

    person: str | None = None
    device: str | None = None
    entry_id: str | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    supersedes: str | None = None
    reason: str | None = None


def check_correction(bench: Bench, body: type[OilChosen | PressureReading], taking: OilTaking) -> None:
    """Whether what is corrected, if anything, is there and of the same kind, and has its reason.

    Raises
    ------
    BenchError
        If not.
    """
    if taking.supersedes is None:
        return
    held = bench.build.ledger.recorded.get(taking.supersedes)
    if held is None or not isinstance(held.body, body):
        raise UnknownNameError(_CALLED[body], taking.supersedes[:8], [])
    if not (taking.reason or "").strip():
        raise NoWordsError("A correction", "its reason")


_CALLED: Mapping[type[OilChosen | PressureReading], str] = {
    OilChosen: "choice of oil",
    PressureReading: "pressure reading",
}


def entries_of(
    bench: Bench, body: OilChosen | PressureReading, answered: Iterable[Answered], taking: OilTaking
) -> tuple[NewEntry, ...]:
    """The entry of a body first, then answers to what was asked about it."""
    build, entry_id = bench.build.build, taking.entry_id or new_id()
    own = NewEntry(
        id=entry_id,
        build=build,
        kind=body.kind,
        body=body.model_dump(mode="json"),
        person=taking.person,
        device=taking.device,
    )
    answers = (
        answer_entry(each, build=build, entry_id=entry_id, person=taking.person, device=taking.device)
        for each in answered
    )
    return own, *answers
