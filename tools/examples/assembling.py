"""Assembly entered as at the bench: every entry comes from the functions behind the pages and commands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, Final, Protocol, cast

from fitwright.assess.assembly.consequence import consequences_of
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.bench import consumables, loosenings, permissions, reworking, steps, tightenings
from fitwright.bench.asking import KEEP
from fitwright.bench.context import Bench
from fitwright.bench.first_start import PressureTaking, PressureTyped, take_pressure
from fitwright.bench.parts import Change
from fitwright.bench.photos import photo_of
from fitwright.bench.work_taking import WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry, as_if_written
from fitwright.records.projection import BuildState, ShopState
from fitwright.units import Family
from tools.examples.amounts import typed as amount
from tools.examples.book import Book

JPEG: Final = "image/jpeg"


class Taken(Protocol):
    """What a bench function gives: the entries to write."""

    @property
    def entries(self) -> tuple[NewEntry, ...]:
        """Itself first, then the answers to what was asked about it."""
        ...


class NotAnsweredError(Exception):
    """The bench asks something that the tables do not answer."""


@dataclass
class Assembling:
    """One build being assembled in a book: who does what, with what, in which order.

    `photos` are the digests of the pictures that the example has, by `step/photo`.
    """

    book: Book
    family: Family
    photos: Mapping[str, str]
    _shop: ShopState = field(default_factory=ShopState)
    _build: BuildState | None = None
    _taken_up: int = 0

    # The record as it stands.

    @property
    def bench(self) -> Bench:
        """Sheet, shop and build with everything that the book holds."""
        build = self._build or BuildState(self.book.build or "")
        self._build = build
        for number, fields in enumerate(self.book.entries[self._taken_up :], self._taken_up + 1):
            entry = as_if_written(NewEntry(**fields), number, fields["client_time"])
            self._shop.apply(entry)
            build.apply(entry)
        self._taken_up = len(self.book.entries)
        return Bench(self.book.sheet, self._shop, build)

    @contextmanager
    def by(self, person: str) -> Iterator[None]:
        """Somebody else does, for a while."""
        before, self.book.person = self.book.person, person
        yield
        self.book.person = before

    def _enter(
        self, name: str, take: Callable[[WorkTaking], object], kept: Sequence[str], **more: str
    ) -> str:
        """Enter what a bench function takes; of what it asks, the keys that begin so are kept as typed."""
        entry_id = self.book.next_id(name)

        def with_answers(answers: Mapping[str, str]) -> object:
            return take(
                WorkTaking(
                    family=self.family,
                    person=self.book.person,
                    device=self.book.device,
                    entry_id=entry_id,
                    answers=answers,
                    now=self.book.clock,
                    **cast("Any", more),
                )
            )

        self.book.append(_answered(name, with_answers, kept).entries)
        return entry_id

    # Steps.

    def does(self, step: str, words: str = "", *, by: str = "") -> None:
        """The work of a step is done."""
        bench = self.bench
        self._enter(
            f"step done/{step}",
            lambda taking: steps.step_done(bench, step, taking, done_by=by, words=words),
            (),
        )

    def releases(self, step: str, by: str, words: str = "") -> None:
        """A named person releases a hold point."""
        bench = self.bench
        with self.by(by):
            self._enter(
                f"step released/{step}",
                lambda taking: steps.step_released(bench, step, taking, released_by=by, words=words),
                (),
            )

    def invites(self, step: str, answer: str, words: str = "") -> None:
        """Whom the sheet names is invited to a witness point, and comes or does not."""
        bench = self.bench
        self._enter(
            f"witness invited/{step}",
            lambda taking: steps.witness_invited(bench, step, taking, answer=answer, words=words),
            (),
        )

    def photographs(self, step: str, *names: str) -> None:
        """The photos that a step asks for, each with the words of the sheet; all of them unless named."""
        for photo in self.book.sheet.steps[step].photos:
            if not names or photo.id in names:
                subject = f"{step}/{photo.id}"
                body = photo_of(self.photos[subject], JPEG, caption=photo.words, subject=subject)
                self.book.tell(body, subject)

    def uses(self, consumable: str, step: str, **said: str) -> None:
        """A consumable goes on, now unless said: its batch, its day, when it was mixed."""
        bench = self.bench
        applied = {"applied_at": f"{self.book.clock:%H:%M}"} | said
        typed = consumables.ConsumableTyped(consumable=consumable, step=step, **applied)
        self._enter(
            f"consumable used/{consumable}/{step}",
            lambda taking: consumables.take_consumable(bench, typed, taking),
            (),
        )

    # Tightening.

    def tightens(self, group: str, fasteners: str = "all", *, kept: Sequence[str] = (), **said: Any) -> str:  # noqa: ANN401 - fields of what is typed
        """Fasteners are brought to their next pass."""
        bench = self.bench
        typed = tightenings.TighteningTyped(group=group, fasteners=fasteners, **said)
        return self._enter(
            f"tightening/{group}/{fasteners}",
            lambda taking: tightenings.take_tightening(bench, typed, taking),
            kept,
        )

    def loosens(self, group: str, fasteners: str, because: str, **said: Any) -> None:  # noqa: ANN401
        """Fasteners are loosened again."""
        bench = self.bench
        typed = loosenings.LooseningTyped(group=group, fasteners=fasteners, because=because, **said)
        self._enter(
            f"loosening/{group}/{fasteners}",
            lambda taking: loosenings.take_loosening(bench, typed, taking),
            (),
        )

    def looks(self, group: str, check: str, *, by: str, fasteners: str = "all", words: str = "") -> None:
        """Somebody looks at tightened fasteners again: marks them, or checks them as a second person."""
        bench = self.bench
        typed = loosenings.CheckTyped(
            group=group, fasteners=fasteners, check=check, checked_by=by, words=words
        )
        self._enter(
            f"tightening check/{group}/{fasteners}/{check}",
            lambda taking: loosenings.take_check(bench, typed, taking),
            (),
        )

    def heats(self, words: str) -> None:
        """The engine is run to heat and cools again."""
        bench = self.bench
        self._enter("heat cycle", lambda taking: loosenings.take_heat_cycle(bench, words, taking), ())

    # Permissions and rework.

    def concedes(self, subject: str, **said: str) -> None:
        """What does not meet its limit is accepted, with what that means as it is shown then."""
        self._permits("concession", permissions.grant_concession, subject, said)

    def permits(self, subject: str, **said: str) -> None:
        """Beforehand, a departure from what the sheet says is allowed."""
        self._permits("deviation permit", permissions.grant_permit, subject, said)

    def _permits(
        self, kind: str, grant: Callable[..., object], subject: str, said: Mapping[str, str]
    ) -> None:
        bench = self.bench
        typed = permissions.PermissionTyped(subject=subject, **said)
        told = self._consequences(bench, typed)
        with self.by(typed.granted_by):
            self._enter(f"{kind}/{subject}", lambda taking: grant(bench, typed, taking, consequence=told), ())

    def _consequences(self, bench: Bench, typed: permissions.PermissionTyped) -> tuple[str, ...]:
        """What it would accept, in words, as the page shows it before anybody signs."""
        unit = permissions.accepted_of(bench, typed.subject, self.family).unit
        lowest, highest = (amount(text, unit) if text else None for text in (typed.lowest, typed.highest))
        assessor = Assessor(bench.sheet, bench.shop, bench.build, State.CURRENT)
        found = consequences_of(assessor, typed.subject, lowest=lowest, highest=highest)
        return tuple(each.words for each in found)

    def reworks(
        self,
        code: str,
        position: str,
        dimensions: Iterable[str],
        *,
        order: str,
        done: str,
        change: Change = "rework",
        target: str = "",
    ) -> None:
        """A rework is ordered, with what its dimensions feed, and carried out."""
        bench = self.bench
        part = self.book.in_place(position)
        typed = reworking.OrderTyped(
            part=part, dimensions=tuple(dimensions), words=order, change=change, target=target, code=code
        )
        self._enter(f"rework order/{code}", lambda taking: reworking.order_rework(bench, typed, taking), ())
        ordered = self.bench
        self._enter(
            f"state/{code}", lambda taking: reworking.rework_done(ordered, code, taking, words=done), ()
        )

    def checks_off(self, code: str, words: str = "", *, answer: str = "holds") -> None:
        """Everything that a reworked part feeds was looked at again."""
        order = reworking.order_named(self.bench, code)
        for item in order.feeds:
            self._enter(
                f"rework checked/{code}/{item}",
                lambda taking, item=item: reworking.rework_checked(  # type: ignore[misc]
                    self.bench, code, item, answer, taking, words=words
                ),
                (),
            )

    # First start.

    def reads_pressure(self, said: PressureTyped, *, supersedes: str | None = None, reason: str = "") -> str:
        """Oil pressure as the gauge showed it."""
        bench, entry_id = self.bench, self.book.next_id(f"pressure reading/{said.step}")
        taking = PressureTaking(
            person=self.book.person,
            device=self.book.device,
            entry_id=entry_id,
            family=self.family,
            supersedes=supersedes,
            reason=reason or None,
        )
        self.book.append(_answered(said.step, lambda _: take_pressure(bench, said, taking), ()).entries)
        return entry_id


def _answered(name: str, take: Callable[[Mapping[str, str]], object], kept: Sequence[str]) -> Taken:
    """What comes of it once every question is answered."""
    answers: dict[str, str] = {}
    while isinstance(found := take(answers), Question):
        if found.key in answers or not found.key.startswith(tuple(kept)):
            message = f"{name}: {found.key}: {found.text}"
            raise NotAnsweredError(message)
        answers[found.key] = KEEP
    return cast("Taken", found)
