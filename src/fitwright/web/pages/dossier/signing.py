"""Signing: with which meaning, what a signature speaks for, and what came after it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from fitwright.bench.entry_words import title_of
from fitwright.bench.signing import DOSSIER, sign
from fitwright.bench.telling import counted
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import Acknowledgement, NewEntry
from fitwright.records.kinds import DossierWritten, Signature
from fitwright.records.projection import Recorded
from fitwright.records.protocol import Record
from fitwright.web.addresses import record_address
from fitwright.web.entering.controls import Asking, Control, hidden, one, words
from fitwright.web.entering.effects import EffectPoint, Effects
from fitwright.web.entering.kinds import FormKind
from fitwright.web.hands import Hands
from fitwright.web.numbers import whole_number
from fitwright.web.whose import when_written
from fitwright.web.writing import UnclearFormError

MEANINGS: Final = {
    "performed": "performed: I did this work",
    "checked": "checked: I looked at it",
    "released": "released: I hand it over as it stands",
}
OF_THE_DOSSIER: Final = (Signature.kind, DossierWritten.kind)
"""Entries after which a signature speaks for as much as before."""


@dataclass(frozen=True, slots=True)
class SignatureLine:
    """One signature: whose, of what, up to which entry, and what came since."""

    who: str
    meaning: str
    subject: str
    when: str
    speaks_for: str
    head: str
    after: str
    after_address: str
    words: str
    later: bool
    seq: int
    record: str


def signature_lines(hands: Hands, code: str) -> tuple[SignatureLine, ...]:
    """Every signature of a build, the last first."""
    found = hands.shop.bench(code).build.work.signatures
    return tuple(_line(hands, code, each) for each in reversed(found))


def _line(hands: Hands, code: str, held: Recorded[Signature]) -> SignatureLine:
    body, bench = held.body, hands.shop.bench(code)
    person = bench.shop.people.get(body.signed_by)
    return SignatureLine(
        who=person.body.name if person is not None else body.signed_by,
        meaning=body.meaning,
        subject="the dossier" if body.subject == DOSSIER else title_of(bench, body.subject),
        when=when_written(bench.shop, held.entry),
        speaks_for=f"the record up to entry {body.seq}",
        head=body.hash,
        after=came_after(hands.shop.record, code, body.seq),
        after_address=record_address(code, {"after": body.seq}),
        words=body.words or "",
        later=body.later,
        seq=held.entry.seq,
        record=record_address(code, entry=held.entry.seq),
    )


def came_after(record: Record, code: str, seq: int) -> str:
    """What was entered for a build after an entry, signatures and dossiers apart; may be nothing."""
    counts = record.counts(code, after=seq)
    return counted(Counter({kind: each for kind, each in counts.items() if kind not in OF_THE_DOSSIER}))


def _controls(asking: Asking) -> tuple[Control, ...]:
    head = asking.head()
    lone = len(asking.bench.shop.people) < 2
    later = Control("tick", "later", "I looked at it again later, with fresh eyes", asking.get("later"))
    return (
        hidden("seen", str(head.seq) if head is not None else ""),
        one(asking, "meaning", "What the signature means", MEANINGS),
        *([later] if lone else []),
        words(asking, "words", "In words", "May stay empty."),
    )


def _head(asking: Asking) -> Acknowledgement:
    head = asking.head()
    if head is None:
        raise UnclearFormError("Nothing is entered yet", "there is nothing to sign")
    return head


def _sign(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    head = _head(asking)
    seen = whole_number(asking.get("seen"))
    if seen is None or seen > head.seq:
        raise UnclearFormError("It is not said up to which entry this is signed", "open the form anew")
    if asking.bench.build.seq > seen:
        raise UnclearFormError("Entries came since this form was opened", "look at them, then sign again")
    if asking.get("meaning") not in MEANINGS:
        raise UnclearFormError("What the signature means is not chosen", "say performed, checked or released")
    return sign(
        asking.bench,
        DOSSIER,
        asking.get("meaning"),
        taking,
        head=head,
        signed_by=asking.get("person"),
        later=bool(asking.get("later")),
        words=asking.get("words"),
    )


def _speaks_for(asking: Asking, entries: Sequence[NewEntry], *, done: bool, echo: str = "") -> Effects:
    """Up to which entry it speaks, and what is open all the same."""
    body = entries[0].body
    lead = f"It {'speaks' if done else 'will speak'} for the record up to entry {body['seq']}."
    open_points = asking.standing().open_points
    count = len(open_points)
    kinds = Counter(each.kind.value for each in open_points)
    points = tuple(EffectPoint("", "", f"{number} {kind}") for kind, number in kinds.items())
    said = (
        f"{count} {'point is' if count == 1 else 'points are'} open and stand in the dossier:"
        if count
        else ""
    )
    return Effects(echo, f"{lead} {said}".strip(), (), "", done, points)


SIGN = FormKind(
    "sign",
    "Sign",
    "Sign the dossier",
    "Sign it",
    _controls,
    lead=lambda _: "A signature speaks for what was entered until now, and for nothing that comes after.",
    suppose=_speaks_for,
    ask="What does it speak for?",
    promise="Here it will say what the signature speaks for, before it is given.",
    signs=True,
    take=_sign,
)
