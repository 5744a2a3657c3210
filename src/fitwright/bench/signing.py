"""Signatures as a person gives them: what is signed, with which meaning, up to which entry."""

from __future__ import annotations

from typing import Final, Literal, get_args

from fitwright.bench.context import Bench, near
from fitwright.bench.errors import UnknownNameError
from fitwright.bench.sittings import person_named
from fitwright.bench.work_taking import WorkTaken, WorkTaking, work_taken
from fitwright.bench.work_words import work_words
from fitwright.records.entry import Acknowledgement
from fitwright.records.kinds import Signature

Meaning = Literal["performed", "checked", "released"]
MEANINGS: Final[tuple[Meaning, ...]] = get_args(Meaning)
DOSSIER: Final = "dossier"


def sign(
    bench: Bench,
    subject: str,
    meaning: str,
    taking: WorkTaking,
    *,
    head: Acknowledgement,
    signed_by: str = "",
    later: bool = False,
    words: str = "",
) -> WorkTaken:
    """A person signs something as it stood at an entry of the record (`head`).

    Raises
    ------
    BenchError
        If it is nothing that can be signed, the meaning is none, or nobody is called so.
    """
    known = signable(bench)
    if subject not in known:
        raise UnknownNameError("thing to sign", subject, near(subject, known) or list(known))
    said = next((each for each in MEANINGS if each == meaning), None)
    if said is None:
        raise UnknownNameError("meaning of a signature", meaning, list(MEANINGS))
    who = person_named(bench.shop, signed_by or taking.person)
    body = Signature(
        subject=subject,
        meaning=said,
        signed_by=who,
        seq=head.seq,
        hash=head.hash,
        later=later,
        words=words.strip() or None,
    )
    return work_taken(bench, body, work_words(body, bench.sheet), taking, signed_by=who)


def signable(bench: Bench) -> tuple[str, ...]:
    """What can be signed: the dossier, steps, tightening groups, and what was permitted or ordered."""
    work, sheet = bench.build.work, bench.sheet
    permitted = (*work.concessions, *work.deviation_permits, *work.rework_orders)
    return (DOSSIER, *sheet.steps, *sheet.tightening_groups, *permitted)
