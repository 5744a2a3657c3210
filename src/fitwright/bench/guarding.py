"""What of assembly is taken into the record: steps whose conditions hold, and what the right person signs.

Entries are looked at one by one, each as the record would stand before it. An entry that only brings back
what was withdrawn (or a correction withdrawn) is held against the same rules as what it brings back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Protocol

from fitwright.assess.assembly.results import (
    Condition,
    ConditionKind,
    Standing,
    StepStanding,
    StepState,
)
from fitwright.bench.guarding_errors import (
    CodeOfAnotherError,
    HoldLeftOutError,
    NotOfThisRecordError,
    NotStartedError,
    NotTheSignerError,
    SignedElsewhereError,
    StepWaitsError,
    UnknownSignerError,
)
from fitwright.bench.guarding_people import check_people
from fitwright.bench.pin_proofs import PinProofs, name_of
from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind, Step
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.kinds import (
    Body,
    Concession,
    DeviationPermit,
    DossierWritten,
    NotInThisJob,
    Person,
    PinSet,
    Signature,
    StepDone,
    StepReleased,
    Withdrawal,
)
from fitwright.records.projection import BuildState, ShopState
from fitwright.records.registry import SIGNED_KINDS

GUARDED: Final = SIGNED_KINDS | {
    noun.kind for noun in (StepDone, DossierWritten, NotInThisJob, Person, PinSet)
}
"""The kinds that are not taken from just anybody at just any time."""
_OF_PEOPLE: Final = frozenset({Person.kind, PinSet.kind})
_SIGNER: Final[Mapping[str, str]] = {
    StepReleased.kind: "released_by",
    Concession.kind: "granted_by",
    DeviationPermit.kind: "granted_by",
    Signature.kind: "signed_by",
}


class Known(Protocol):
    """The record as it stands before new entries, as far as they are held against it."""

    @property
    def shop(self) -> ShopState:
        """The shop as it stands."""
        ...

    def build(self, code: str) -> BuildState | None:
        """A build as it stands; None where there is none of that code."""
        ...

    def sheet(self, code: str) -> Sheet:
        """The sheet of a build."""
        ...

    def standing(self, code: str, entries: Sequence[NewEntry]) -> Standing:
        """How the assembly of a build would stand with these entries written."""
        ...

    def entry(self, entry_id: str) -> Entry | None:
        """An entry by its id."""
        ...

    def hash_at(self, seq: int) -> str | None:
        """The hash of the entry with this number; None where there is none."""
        ...

    def has_signed(self, person: str) -> bool:
        """Whether this person released, permitted or signed anything."""
        ...


def concerns(entries: Iterable[NewEntry], entry: Callable[[str], Entry | None]) -> bool:
    """Whether any of these entries is guarded: by its kind, or by what it withdraws or corrects."""
    every = list(entries)
    own = {each.id: each for each in every}
    return any(_is_guarded(each, own, entry) for each in every)


def holds_left_out(sheet: Sheet, subject: str) -> tuple[Step, ...]:
    """The hold points that are no part of a job from which what begins with a name is left out."""
    holds = (each for each in sheet.steps.values() if each.point is PointKind.HOLD)
    return tuple(each for each in holds if f"{each.id}.".startswith(f"{subject}."))


def check_guarded(entries: Sequence[NewEntry], known: Known, proofs: PinProofs) -> None:
    """Refuse entries whose conditions do not hold or that the person named did not sign.

    Entries that the record has already are passed over: they get their first answer again.

    Raises
    ------
    GuardError
        With the sentence for whoever entered them.
    """
    _Guard(known, proofs).check(entries)


def check_identities(entries: Sequence[NewEntry], known: Known, proofs: PinProofs) -> None:
    """Refuse entries that make somebody out of another, or sign for one who has a PIN here.

    Steps are taken as they come, and signatures of others: so is a build taken in that another shop has
    recorded. What counts of it follows from the record. A file can be written by anybody: where it signs
    for somebody of this shop, it takes that person's PIN.
    """
    _Guard(known, proofs, arriving=True).check(entries)


@dataclass(slots=True)
class _Guard:
    """Goes through the entries of one write, with what stands before each of them."""

    known: Known
    proofs: PinProofs
    arriving: bool = False

    def check(self, entries: Sequence[NewEntry]) -> None:
        """Look at each guarded entry that the record does not have yet."""
        shop, before = self.known.shop, dict[str, NewEntry]()
        for entry in entries:
            if _is_guarded(entry, before, self.known.entry) and self._is_new(entry):
                shop = self._of_people(entry, shop)
                if self.arriving:
                    self._arrives(entry, before, shop)
                else:
                    self._of_build(entry, list(before.values()), shop)
            before[entry.id] = entry

    def _is_new(self, entry: NewEntry) -> bool:
        return self.known.entry(entry.id) is None

    def _of_people(self, entry: NewEntry, shop: ShopState) -> ShopState:
        if entry.kind not in _OF_PEOPLE | {Withdrawal.kind}:
            return shop
        after = shop.supposing([entry])
        check_people(entry, shop, after, self.proofs, self.known.has_signed)
        return after

    def _of_build(self, entry: NewEntry, before: Sequence[NewEntry], shop: ShopState) -> None:
        build = self.known.build(entry.build) if entry.build is not None else None
        if build is None or entry.build is None:
            if entry.kind in GUARDED - _OF_PEOPLE:  # it would count once the build is started
                raise NotStartedError(entry.kind, entry.build or "")
            return
        earlier = [each for each in before if each.build in (None, entry.build) and self._is_new(each)]
        state = build.supposing(earlier) if earlier else build
        for body, person in _made_to_count(entry, state):
            self._signed(body, person, shop)
            self._speaks_for(body)
            self._code_is_free(body, state)
            self._leaves_no_hold_out(body, person, entry.build, shop)
            self._step_may(body, entry.build, earlier)

    def _arrives(self, entry: NewEntry, own: Mapping[str, NewEntry], shop: ShopState) -> None:
        """What a file signs for somebody of this shop, or leaves out here."""
        held, only_takes_away = _withdrawn_at_last(entry, own, self.known.entry)
        if only_takes_away:
            return
        signer = held.body.get(_SIGNER.get(held.kind, ""))
        if held.kind == NotInThisJob.kind and entry.build is not None and self.known.build(entry.build):
            left_out = holds_left_out(self.known.sheet(entry.build), str(held.body.get("subject")))
            signer = entry.person if left_out and len(shop.people) > 1 else None
            if left_out and signer is None and len(shop.people) > 1:
                raise HoldLeftOutError(left_out[0].id, left_out[0].title)
        if signer in shop.pins and not (entry.person == signer and self.proofs.own(shop, str(signer))):
            raise SignedElsewhereError(str(signer), name_of(shop, str(signer)), held.kind)

    def _signed(self, body: Body, person: str | None, shop: ShopState) -> None:
        if body.kind not in SIGNED_KINDS:
            return
        signer = str(getattr(body, _SIGNER[body.kind]))
        if signer not in shop.people:
            raise UnknownSignerError(body.kind, signer, list(shop.people))
        if person != signer:
            raise NotTheSignerError(body.kind, signer, person)
        self.proofs.require(shop, signer)

    def _speaks_for(self, body: Body) -> None:
        """A signature or a dossier names the entry up to which it speaks, as it stands in this record."""
        if isinstance(body, Signature | DossierWritten) and self.known.hash_at(body.seq) != body.hash:
            raise NotOfThisRecordError(body.kind, body.seq)

    def _code_is_free(self, body: Body, state: BuildState) -> None:
        """One code stands for one subject, or a permission could be put in the place of another."""
        if not isinstance(body, Concession | DeviationPermit):
            return
        for held in state.ledger.recorded.values():
            other = held.body
            if isinstance(other, type(body)) and other.code == body.code and other.subject != body.subject:
                raise CodeOfAnotherError(body.kind, body.code, other.subject)

    def _leaves_no_hold_out(self, body: Body, person: str | None, build: str, shop: ShopState) -> None:
        """A hold point said to be no part of the job would be passed by: it takes a person like a release."""
        if not isinstance(body, NotInThisJob) or len(shop.people) < 2:
            return
        for step in holds_left_out(self.known.sheet(build), body.subject):
            if person is None or person not in shop.people:
                raise HoldLeftOutError(step.id, step.title)
            self.proofs.require(shop, person)

    def _step_may(self, body: Body, build: str, earlier: Sequence[NewEntry]) -> None:
        if not isinstance(body, StepDone | StepReleased):
            return
        found = self.known.standing(build, earlier).steps.get(body.step)
        done = isinstance(body, StepDone)
        deed = "recorded as done" if done else "released"
        if found is None:
            raise StepWaitsError(body.step, body.step, deed, ["the sheet has no such step"])
        if not (found.may_be_done if done else found.may_be_released):
            raise StepWaitsError(found.id, found.title, deed, _why(found))


def _why(found: StepStanding) -> tuple[str, ...]:
    """What a step wants, in words; its state where it wants nothing."""
    wanting = [_wanting(each) for each in found.missing]
    cause = found.waits_for.words if found.waits_for is not None else ""
    return tuple(wanting or ([cause] if cause else [found.words]))


_BEFORE: Final[Mapping[str, str]] = {
    StepState.HELD.value: "is done and not released",
    StepState.CHANGED_SINCE.value: "changed since it was done",
}


def _wanting(condition: Condition) -> str:
    if condition.kind is not ConditionKind.AFTER:
        return f"{condition.title}: {condition.words}"
    return f"{condition.title} {_BEFORE.get(condition.words, 'is not done')}"


def _made_to_count(entry: NewEntry, state: BuildState) -> list[tuple[Body, str | None]]:
    """The guarded bodies that would count with an entry and do not count now, each with who enters it."""
    after = state.supposing([entry])
    return [
        (held.body, entry.person)
        for held in after.ledger.recorded.values()
        if held.entry.kind in GUARDED - _OF_PEOPLE
        and after.ledger.effective(held.entry.id)
        and not (held.entry.id in state.ledger and state.ledger.effective(held.entry.id))
    ]


def _withdrawn_at_last(
    entry: NewEntry, own: Mapping[str, NewEntry], earlier: Callable[[str], Entry | None]
) -> tuple[NewEntry | Entry, bool]:
    """What an entry brings or, through withdrawals, brings back; whether it only takes something away."""
    held: NewEntry | Entry = entry
    depth = 0
    while held.kind == Withdrawal.kind:
        target = str(held.body.get("entry"))
        found = own.get(target) or earlier(target)
        if found is None:
            break
        held, depth = found, depth + 1
    return held, depth == 1 and held.body.get("supersedes") is None


def _is_guarded(
    entry: NewEntry | Entry, own: Mapping[str, NewEntry], earlier: Callable[[str], Entry | None]
) -> bool:
    """Whether an entry, or what it withdraws through however many withdrawals, is of a guarded kind."""
    seen: set[str] = set()
    while True:
        if entry.kind in GUARDED:
            return True
        target = str(entry.body.get("entry")) if entry.kind == Withdrawal.kind else ""
        found = own.get(target) or (earlier(target) if target else None)
        if found is None:
            return bool(target)  # another thread may be writing it just now
        if target in seen:
            return False
        seen.add(target)
        entry = found
