"""Consumables: each use with its batch, its day, its pot life and its curing."""

from __future__ import annotations

from datetime import datetime, timedelta

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.part_results import ConsumableStanding, ConsumableUse
from fitwright.assess.assembly.times import is_over, moment
from fitwright.model.step import Consumable
from fitwright.records.kinds import ConsumableUsed
from fitwright.records.projection import Recorded


def consumables_of(job: Job) -> dict[str, ConsumableStanding]:
    """All consumables of the sheet, in its order."""
    return {each.id: _standing(job, each) for each in job.sheet.consumables.values()}


def uses_of(job: Job, consumable: Consumable, now: datetime | None) -> list[tuple[int, ConsumableUse]]:
    """All uses of a consumable in order, each with where it stands there, as they are at a moment."""
    key = (consumable.id, now)
    if key not in job.uses:
        held = job.work.consumables_used.get(consumable.id, ())
        found = [(job.work.orders[each.entry.id], use_of(job, consumable, each, now)) for each in held]
        job.uses[key] = sorted(found, key=lambda each: (each[0], each[1].deed.seq))
    return job.uses[key]


def use_of(
    job: Job, consumable: Consumable, held: Recorded[ConsumableUsed], now: datetime | None
) -> ConsumableUse:
    """One use as it is at a moment.

    Where nobody said when it was put on, the shop's own clock counts, not that of a device.
    """
    entry, body = held
    mixed, applied = moment(body.mixed_at), moment(body.applied_at) or moment(entry.committed_at)
    over = _over_pot_life(consumable, mixed, applied)
    cured_from = _cured_from(consumable, applied)
    cured = cured_from is None or (now is not None and now >= cured_from)
    expired = is_over(body.expires, applied)
    batch_missing = consumable.batch_wanted and not (body.batch or "").strip()
    return ConsumableUse(
        deed=job.deed(entry, body.used_by, body.note),
        step=body.step,
        batch=body.batch,
        batch_missing=batch_missing,
        expires=body.expires,
        expired=expired,
        mixed_at=mixed,
        applied_at=applied,
        over_pot_life=over,
        cured_from=cured_from,
        cured=cured,
        words="; ".join(_words(body, over, cured_from, now, expired, batch_missing)) or "in order",
    )


def _over_pot_life(consumable: Consumable, mixed: datetime | None, applied: datetime | None) -> float | None:
    if consumable.pot_life is None or mixed is None or applied is None:
        return None
    over = (applied - mixed).total_seconds() - consumable.pot_life.si
    return over if over > 0.0 else None


def _cured_from(consumable: Consumable, applied: datetime | None) -> datetime | None:
    if consumable.cure_time is None or applied is None:
        return None
    return applied + timedelta(seconds=consumable.cure_time.si)


def _words(
    body: ConsumableUsed,
    over: float | None,
    cured_from: datetime | None,
    now: datetime | None,
    expired: bool,  # noqa: FBT001 - private, by its name
    batch_missing: bool,  # noqa: FBT001
) -> list[str]:
    found = []
    if batch_missing:
        found.append("no batch recorded")
    if expired:
        found.append(f"past its day ({body.expires}) when it was used")
    if over is not None:
        found.append(f"put on {figures.lasting(over)} after its pot life was over")
    if cured_from is not None and now is not None and now < cured_from:
        found.append(f"cured in {figures.lasting((cured_from - now).total_seconds())}")
    return found


def _standing(job: Job, consumable: Consumable) -> ConsumableStanding:
    uses = tuple(use for _, use in uses_of(job, consumable, job.now))
    curing = [each for each in uses if not each.cured]
    until = max((each.cured_from for each in curing if each.cured_from is not None), default=None)
    return ConsumableStanding(
        id=consumable.id,
        title=consumable.title,
        kind=consumable.kind.value,
        cure_time=consumable.cure_time.si if consumable.cure_time is not None else None,
        pot_life=consumable.pot_life.si if consumable.pot_life is not None else None,
        uses=uses,
        cured=not curing,
        cured_from=until,
        words=_standing_words(uses, curing),
    )


def _standing_words(uses: tuple[ConsumableUse, ...], curing: list[ConsumableUse]) -> str:
    if not uses:
        return "not used"
    wrong = [each for each in uses if not each.in_order]
    said = wrong[-1].words if wrong else (curing[-1].words if curing else "in order")
    times = "used once" if len(uses) == 1 else f"used {len(uses)} times"
    return f"{times}; {said}"
