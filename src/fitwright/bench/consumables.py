"""A consumable used, as a person types it: its batch, until when it is good, when it was mixed and put on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Final

from fitwright.bench.asking import Answered
from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError
from fitwright.bench.moments import last_day, moment_typed, zone_of
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    check_correction,
    consumable_named,
    first_open,
    step_named,
    who_did,
    why,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.model.slips import Question
from fitwright.model.step import Consumable
from fitwright.records.kinds import ConsumableUsed

NO_BATCH: Final = "No batch was said: the step that uses it waits for one."


@dataclass(frozen=True, slots=True, kw_only=True)
class ConsumableTyped:
    """A consumable used as it was typed, text by text; empty where nothing was said.

    `expires` is a day or a month; `mixed_at` (mixed or opened) and `applied_at` a time of day or a date
    and time.
    """

    consumable: str
    step: str = ""
    batch: str = ""
    expires: str = ""
    mixed_at: str = ""
    applied_at: str = ""
    used_by: str = ""
    note: str = ""


def take_consumable(bench: Bench, said: ConsumableTyped, taking: WorkTaking) -> WorkTaken | Question:
    """A consumable used: the entries to append, or the question to ask first.

    Raises
    ------
    BenchError
        If the sheet has no such consumable or step, nobody is called so, or a time is none.
    """
    found = consumable_named(bench, said.consumable)
    check_correction(bench, ConsumableUsed, taking)
    body = _body(bench, found, said, taking)
    answered: list[Answered] = []
    question = first_open(bench, _questions(bench, found, body, taking), found.id, "", taking, answered)
    if question is not None:
        return question
    no_batch = NO_BATCH if found.batch_wanted and body.batch is None else ""
    not_on = f"{found.title} must not go on {found.not_on}." if found.not_on else ""
    return work_taken(
        bench,
        body,
        work_words(body, bench.sheet),
        taking,
        about=found.id,
        answered=answered,
        cautions=(no_batch, not_on),
    )


def _body(bench: Bench, found: Consumable, said: ConsumableTyped, taking: WorkTaking) -> ConsumableUsed:
    mixed = moment_typed(said.mixed_at, bench.shop, taking.now)
    applied = moment_typed(said.applied_at, bench.shop, taking.now)
    if mixed and applied and datetime.fromisoformat(applied) < datetime.fromisoformat(mixed):
        raise CannotEnterError(f"{found.title} was put on before it was mixed", "exchange the two times")
    return ConsumableUsed.model_validate(
        {
            "consumable": found.id,
            "step": step_named(bench, said.step).id if said.step else None,
            "batch": said.batch.strip() or None,
            "expires": last_day(said.expires),
            "mixed_at": mixed,
            "applied_at": applied,
            "used_by": who_did(bench, said.used_by, taking),
            "note": said.note.strip() or None,
            **why(taking),
        }
    )


def _questions(
    bench: Bench, found: Consumable, body: ConsumableUsed, taking: WorkTaking
) -> Iterator[Question]:
    today = taking.now.astimezone(zone_of(bench.shop)).date()
    if body.expires is not None and date.fromisoformat(body.expires) < today:
        batch = f", batch {body.batch}," if body.batch else ""
        text = f"{found.title}{batch} was good until {body.expires}. Was it used all the same?"
        yield Question(f"expired:{body.batch or ''}:{body.expires}", text)
    late = _over_pot_life(found, body, taking.now)
    if late is not None:
        text = (
            f"{found.title} was put on {late / 60.0:.0f} min after it was mixed, and can be worked for "
            f"{found.pot_life.written if found.pot_life else ''}. Is that what was done?"
        )
        yield Question(f"pot-life:{body.mixed_at}:{body.applied_at or ''}", text)


def _over_pot_life(found: Consumable, body: ConsumableUsed, now: datetime) -> float | None:
    """How long after mixing it was put on [s], where that is longer than it can be worked."""
    if found.pot_life is None or body.mixed_at is None:
        return None
    put_on = datetime.fromisoformat(body.applied_at) if body.applied_at else now
    took = (put_on - datetime.fromisoformat(body.mixed_at)).total_seconds()
    return took if took > found.pot_life.si else None
