"""A shop: its record, its states and its verdicts.

A `Shop` keeps what follows from the record in memory and brings it up to date with each entry that
it writes; the store stays the only truth, and everything here can be dropped and built again.
"""

from __future__ import annotations

import threading
import uuid
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.assess.assessment import Assessor
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.bench.guarding import check_guarded, check_identities
from fitwright.bench.revising import revision_taken_over
from fitwright.bench.starting import check_code
from fitwright.formats.carrying import Arrival
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.records.entry import Acknowledgement, Entry, NewEntry
from fitwright.records.errors import RecordError
from fitwright.records.kinds import Body, BuildStarted
from fitwright.records.news import News
from fitwright.records.projection import BuildState, ShopState
from fitwright.store.backup import Manifest, back_up
from fitwright.store.record import SqliteRecord
from fitwright.store.verify import Verification
from fitwright.wiring.errors import UnknownBuildError
from fitwright.wiring.guard import Check, Guard, pin_of
from fitwright.wiring.kept import KeptForDossiers
from fitwright.wiring.open_build import OpenBuild
from fitwright.wiring.verifying import verified

if TYPE_CHECKING:
    from fitwright.assess.assembly.results import Standing
    from fitwright.assess.oil.desk import OilDesk
    from fitwright.dossier.asked import Depth, Paper
    from fitwright.dossier.making import Dossier
    from fitwright.dossier.tree import Document
    from fitwright.dossier.verify import DossierVerification
    from fitwright.units.families import Family

Clock = Callable[[], datetime]


def utc_now() -> datetime:
    """The time now, in UTC."""
    return datetime.now(UTC)


def new_id() -> str:
    """A fresh 128-bit entry id, 32 hex digits."""
    return uuid.uuid4().hex


@dataclass(frozen=True, slots=True)
class Written:
    """What writing brought: acknowledgements, and the subjects whose verdicts it touched."""

    acknowledgements: tuple[Acknowledgement, ...]
    touched: frozenset[str]


class Shop:
    """One shop: its record, and what follows from it."""

    def __init__(self, record: SqliteRecord, *, clock: Clock = utc_now) -> None:
        self.record = record
        self.clock = clock
        self._lock = threading.RLock()
        self._seen = 0
        self._shop = ShopState()
        self._builds: dict[str, BuildStarted] = {}
        self._open: dict[str, OpenBuild] = {}
        self._sheets: dict[str, Sheet] = {}
        self._guard = Guard(self)
        self.kept_for_dossiers = KeptForDossiers()
        self._catch_up()

    @property
    def state(self) -> ShopState:
        """People, gauges, blades and settings."""
        return self._shop

    @property
    def troubles(self) -> tuple[str, ...]:
        """What everybody who looks must know: entries are missing, a head file cannot be read."""
        return tuple(self.record.troubles)

    @property
    def position(self) -> int:
        """The last entry from which what is shown follows."""
        return self._seen

    def news(self, after: int) -> News | None:
        """What was written after an entry, by whatever program; None where nothing was."""
        head = self.record.head()
        if head is None or head.seq <= after:
            return None
        new = list(self.record.entries(after=after))
        return News(new[-1].seq, frozenset(each.build for each in new)) if new else None

    def keep_photo(self, content: bytes, media_type: str) -> str:
        """Keep a photo durably, cleaned; its digest, for the entry that names it."""
        return self.record.keep_photo(content, media_type)

    def photo(self, digest: str) -> bytes:
        """A photo that is kept."""
        return self.record.photo(digest)

    def close(self) -> None:
        """Release the store."""
        self.record.close()

    @contextmanager
    def held(self) -> Iterator[None]:
        """Bring what follows from the record up to date, and keep it so while several things are asked of it.

        Entries go on being written meanwhile, by this program or another, but they show only afterwards:
        without this, a verdict worked out while another thread takes up a new reading could be kept
        although it is out of date.
        """
        with self._lock:
            self._catch_up()
            yield

    def catch_up(self) -> None:
        """Bring what follows from the record up to date."""
        with self.held():
            pass

    def builds(self) -> dict[str, BuildStarted]:
        """All builds by their code, in the order in which they were started."""
        return self._builds

    def sheet(self, digest: str) -> Sheet:
        """The sheet with this digest, read once."""
        found = self._sheets.get(digest)
        if found is None:
            found = read_sheet(self.record.sheet_text(digest))
            self._sheets[digest] = found
        return found

    def bench(self, build: str) -> Bench:
        """What is open on the bench for a build; once it is open, nobody waits for it."""
        held = self._open.get(build)
        if held is None:
            with self._lock:
                held = self._build(build)
        return Bench(held.sheet, self._shop, held.state)

    def assessor(self, build: str, state: State = State.CURRENT) -> Assessor:
        """The assessor of a build in one state; it stays up to date with what is written."""
        with self._lock:
            return self._build(build).assessor(self._shop, state, self._lock)

    def assessment(self, build: str, state: State = State.CURRENT) -> Assessment:
        """All verdicts of a build in one state."""
        with self._lock:
            return self.assessor(build, state).assessment()

    def oil(self, build: str, state: State = State.CURRENT) -> OilDesk:
        """The oil system of a build as its sizes are known; what it answers needs no lock any more.

        An entry that changes no size of the circuit leaves the desk, with all that it worked out; a desk of
        the build as received is made anew each time.
        """
        with self.held():
            if state is State.CURRENT:
                return self._build(build).oil(self._seen, lambda each: self.assessor(build, each))
            from fitwright.assess.oil.desk import OilDesk, oil_case

            return OilDesk(oil_case(self.assessor(build, state).judge))

    def is_ready(self, build: str) -> bool:
        """Whether the current verdicts of a build are all but worked out, so that nobody waits for them."""
        with self._lock:
            held = self._open.get(build)
            return held is not None and held.is_ready

    def verdicts(self, build: str, subjects: Iterable[str]) -> list[FitVerdict]:
        """The current verdicts on some subjects of a build."""
        with self._lock:
            assessor = self.assessor(build)
            return [assessor.verdict(subject) for subject in subjects]

    def assembly(self, build: str, *, now: datetime | None = None) -> Standing:
        """How the assembly of a build stands: steps, fasteners, permissions, what is open."""
        with self.held():
            assessor = self.assessor(build)
            return self._build(build).work.at(assessor, self._seen, now or self.clock())

    def assembly_supposing(self, build: str, entries: Sequence[NewEntry]) -> Standing:
        """How it would stand with these entries written; nothing is."""
        if not entries:
            return self.assembly(build)
        with self._lock:
            return self._build(build).supposing(entries, self._shop, self.clock())

    def write(
        self,
        entries: Sequence[NewEntry],
        *,
        since: int | None = None,
        pins: Mapping[str, str] | None = None,
    ) -> Written:
        """Write entries durably, then bring everything that follows up to date.

        `since` is the `position` from which they were made; where what was entered meanwhile has the
        same code, nothing is written (`CodeTakenError`). A step whose conditions do not hold, and what
        is signed without its person and that person's PIN (`pins`, by person), are not taken
        (`GuardError`): they are held against the record in which nobody else writes meanwhile.
        """
        return self._write(entries, since, pins or {}, check_guarded)

    def _write(
        self, entries: Sequence[NewEntry], since: int | None, pins: Mapping[str, str], check: Check
    ) -> Written:
        acknowledgements = self._guard.append(entries, since, pins, check)
        touched: frozenset[str] = frozenset()
        # They are durable: what cannot be taken up now is said by the next question, not by a refusal.
        with self._lock, suppress(RecordError):
            if any(self._seen < each.seq for each in acknowledgements):  # else another thread took them up
                touched = self._catch_up()
            touched |= self._touched_by(entries)
        return Written(tuple(acknowledgements), touched)

    def pin_entry(
        self,
        person: str,
        pin: str,
        *,
        again: str | None = None,
        vouched_by: str | None = None,
        by: str | None = None,
        entry_id: str | None = None,
    ) -> NewEntry:
        """The entry that sets a person's PIN; written with the old one, or with that of who vouches."""
        body = pin_of(self._shop, person, pin, again=again, vouched_by=vouched_by)
        return self.entry(body, person=by or vouched_by or body.person, entry_id=entry_id)

    def entry(
        self,
        body: Body,
        *,
        build: str | None = None,
        person: str | None = None,
        entry_id: str | None = None,
    ) -> NewEntry:
        """A new entry of this shop from its body."""
        return NewEntry(
            id=entry_id or new_id(),
            build=build,
            kind=body.kind,
            body=body.model_dump(mode="json"),
            person=person,
            client_time=self.clock().isoformat(timespec="milliseconds"),
            kind_version=body.version,
        )

    def start_build(self, code: str, sheet_text: str, started: BuildStarted) -> Written:
        """Start a build to a sheet; the sheet is checked, and kept as it is written."""
        with self.held():
            check_code(code, self._builds)
        read_sheet(sheet_text)
        digest = self.record.keep_sheet(sheet_text)
        body = started.model_copy(update={"code": code, "sheet": digest})
        return self.write([self.entry(body, build=code)])

    def take_over(
        self, build: str, sheet_text: str, differences: Sequence[str], *, person: str | None = None
    ) -> Written:
        """Take a later revision of the sheet over, on purpose, with the differences named."""
        new = read_sheet(sheet_text)
        with self.held():
            body = revision_taken_over(self.bench(build), new, differences)
        self.record.keep_sheet(sheet_text)
        return self.write([self.entry(body, build=build, person=person)])

    def take_in(self, arriving: Arrival) -> Written:
        """Take in a build from a file: its sheets first, then its entries in one transaction.

        Half a build would be refused as another one when the file comes again. What was recorded of its
        assembly is taken as it is: what counts of it follows from the record.
        """
        for text in arriving.sheets.values():
            self.record.keep_sheet(text)
        if not arriving.new:
            return Written((), frozenset())
        return self._write(arriving.new, None, {}, check_identities)

    def verify(self) -> Verification:
        """Verify the record while it is in use; see `verify_shop`."""
        return verified(self.record)

    def dossier_document(
        self, build: str, depth: Depth = "owner", *, units: Family | None = None
    ) -> Document:
        """The dossier of a build as it stands, as a tree without pages."""
        from fitwright.wiring.dossiers import document

        return document(self, build, depth, units)

    def dossier(
        self, build: str, depth: Depth = "owner", paper: Paper = "A4", *, units: Family | None = None
    ) -> Dossier:
        """A draft of the dossier of a build; nothing is written."""
        from fitwright.wiring.dossiers import dossier

        return dossier(self, build, depth, paper, units)

    def hand_over(
        self,
        build: str,
        depth: Depth = "owner",
        paper: Paper = "A4",
        *,
        units: Family | None = None,
        person: str | None = None,
        entry_id: str | None = None,
    ) -> Dossier:
        """The next revision of the dossier of a build; the same id of its entry again is the same again."""
        from fitwright.wiring.dossiers import hand_over

        return hand_over(self, build, depth, paper, units, person=person, entry_id=entry_id)

    def handed_over(self, build: str, revision: int) -> Dossier:
        """A revision that went out, made anew from the record as it then stood."""
        from fitwright.wiring.dossiers import handed_over

        return handed_over(self, build, revision)

    def verify_dossier(self, pdf: bytes, *, name: str) -> DossierVerification:
        """A dossier held against the record it was made from, and against this shop's."""
        from fitwright.wiring.dossiers import verified_dossier

        return verified_dossier(pdf, name=name, shop=self)

    def back_up(self, target: Path) -> Manifest:
        """Copy the shop, while it is in use, into a new folder with a manifest."""
        return back_up(self.record, target)

    def _build(self, code: str) -> OpenBuild:
        if code not in self._builds:
            raise UnknownBuildError(code, list(self._builds))
        held = self._open.get(code)
        if held is not None:
            return held
        # Entries written meanwhile are left for the next catching up, or they would be taken twice.
        known = (entry for entry in self.record.entries(build=code) if entry.seq <= self._seen)
        state = BuildState.replay(code, known)
        if state.sheet is None:
            raise UnknownBuildError(code, list(self._shop.builds))
        held = OpenBuild(self.sheet(state.sheet), state)
        self._open[code] = held
        return held

    def _catch_up(self) -> frozenset[str]:
        """Take all entries that came since; returns the subjects whose verdicts they touched."""
        try:
            return self._take_up(list(self.record.entries(after=self._seen)))
        except BaseException:
            # Half of it taken up would go on being shown as the whole: begin anew at the next question.
            self._seen, self._shop = 0, ShopState()
            self._open.clear()
            raise

    def _take_up(self, new: Sequence[Entry]) -> frozenset[str]:
        touched: frozenset[str] = frozenset()
        for entry in new:
            self._shop.apply(entry)
            self._seen = entry.seq
        for code, held in self._open.items():
            touched |= held.take_up([each for each in new if self._concerns(code, each)], self.sheet)
        if new:
            self._builds = {code: each.body for code, each in self._shop.builds.items()}
        return touched

    def _touched_by(self, entries: Sequence[NewEntry]) -> frozenset[str]:
        """What these entries touch, whichever thread took them up, and also when they are sent again."""
        return frozenset(
            subject
            for entry in entries
            for code, held in self._open.items()
            if self._concerns(code, entry)
            for assessor in held.assessors.values()
            for subject in assessor.touched_by(entry)
        )

    def _concerns(self, code: str, entry: Entry | NewEntry) -> bool:
        return entry.build in (None, code) or self._shop.counts_everywhere(entry)
