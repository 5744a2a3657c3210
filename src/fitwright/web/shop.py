"""What the pages need of a shop; the composition root provides it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from datetime import datetime
from pathlib import Path
from typing import Protocol

from fitwright.assess.assembly.results import Standing
from fitwright.assess.assessment import Assessor
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.results import Assessment, FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.dossier.asked import Depth, Paper
from fitwright.dossier.making import Dossier
from fitwright.dossier.tree import Document
from fitwright.dossier.verify import DossierVerification
from fitwright.formats.carrying import Arrival
from fitwright.records.entry import Acknowledgement, NewEntry
from fitwright.records.kinds import Body, BuildStarted
from fitwright.records.news import News
from fitwright.records.projection import ShopState
from fitwright.records.protocol import Record
from fitwright.units.families import Family


class WrittenEntries(Protocol):
    """What writing brought."""

    @property
    def acknowledgements(self) -> tuple[Acknowledgement, ...]:
        """One for each entry, in order."""
        ...

    @property
    def touched(self) -> frozenset[str]:
        """The subjects whose verdicts the entries touched."""
        ...


class VerifiedRecord(Protocol):
    """What verifying the record found."""

    @property
    def sound(self) -> bool:
        """Whether nothing was found."""
        ...

    @property
    def told(self) -> tuple[str, ...]:
        """All of it in words."""
        ...


class BackedUp(Protocol):
    """What a backup holds."""

    @property
    def entries(self) -> int:
        """How many entries."""
        ...

    @property
    def faults(self) -> tuple[str, ...]:
        """Entries that did not agree with the chain when it was made."""
        ...


class ShopForWeb(Protocol):
    """A shop as the pages see it."""

    @property
    def record(self) -> Record:
        """The record itself: for looking into it, and for the sheets that entries name."""
        ...

    @property
    def position(self) -> int:
        """The last entry from which what is shown follows."""
        ...

    def news(self, after: int) -> News | None:
        """What was written after an entry, by whatever program; None where nothing was."""
        ...

    @property
    def state(self) -> ShopState:
        """People, gauges, blades and settings."""
        ...

    @property
    def troubles(self) -> tuple[str, ...]:
        """What everybody who looks at a page must know: entries are missing, a head file cannot be read."""
        ...

    def held(self) -> AbstractContextManager[None]:
        """Brings all up to date, and keeps it so while a page is made of it."""
        ...

    def builds(self) -> dict[str, BuildStarted]:
        """All builds by their code."""
        ...

    def bench(self, build: str) -> Bench:
        """What is open on the bench for a build."""
        ...

    def assessor(self, build: str, state: State = State.CURRENT) -> Assessor:
        """The assessor of a build in one state."""
        ...

    def assessment(self, build: str, state: State = State.CURRENT) -> Assessment:
        """All verdicts of a build in one state."""
        ...

    def oil(self, build: str) -> OilDesk:
        """The oil system of a build; the same desk as long as nothing that it rests on changed."""
        ...

    def is_ready(self, build: str) -> bool:
        """Whether the current verdicts of a build are all but worked out, so that nobody waits for them."""
        ...

    def verdicts(self, build: str, subjects: Iterable[str]) -> list[FitVerdict]:
        """Current verdicts on some subjects."""
        ...

    def entry(
        self,
        body: Body,
        *,
        build: str | None = None,
        person: str | None = None,
        entry_id: str | None = None,
    ) -> NewEntry:
        """A new entry from its body."""
        ...

    def write(
        self,
        entries: Sequence[NewEntry],
        *,
        since: int | None = None,
        pins: Mapping[str, str] | None = None,
    ) -> WrittenEntries:
        """Write entries durably; those made from `since` only where nobody took their code meanwhile.

        `pins` are those of the people who sign some of them, by person.
        """
        ...

    def pin_entry(
        self,
        person: str,
        pin: str,
        *,
        again: str | None = None,
        vouched_by: str | None = None,
        entry_id: str | None = None,
    ) -> NewEntry:
        """The entry that sets a person's PIN, typed twice; it holds nothing from which it could be read."""
        ...

    def assembly(self, build: str, *, now: datetime | None = None) -> Standing:
        """How the assembly of a build stands: at a moment, or now."""
        ...

    def take_in(self, arriving: Arrival) -> WrittenEntries:
        """Take in a build from a file: its sheets first, then its entries in one transaction."""
        ...

    def verify(self) -> VerifiedRecord:
        """Verify the record while it is in use."""
        ...

    def back_up(self, target: Path) -> BackedUp:
        """Copy the shop, while it is in use, into a new folder with a manifest."""
        ...

    def dossier_document(
        self, build: str, depth: Depth = "owner", *, units: Family | None = None
    ) -> Document:
        """The dossier of a build as it stands, without its pages."""
        ...

    def dossier(
        self,
        build: str,
        depth: Depth = "owner",
        paper: Paper = "A4",
        *,
        units: Family | None = None,
    ) -> Dossier:
        """The dossier of a build as it stands, as a draft; nothing is written."""
        ...

    def handed_over(self, build: str, revision: int) -> Dossier:
        """A revision made anew, from the record as it then stood."""
        ...

    def hand_over(
        self,
        build: str,
        depth: Depth,
        paper: Paper,
        *,
        units: Family | None = None,
        person: str | None = None,
        entry_id: str | None = None,
    ) -> Dossier:
        """The dossier as the next revision, entered in the record."""
        ...

    def verify_dossier(self, pdf: bytes, *, name: str) -> DossierVerification:
        """A dossier, of this shop or another, held against the record that it was made from."""
        ...

    def keep_photo(self, content: bytes, media_type: str) -> str:
        """Keep a photo durably, cleaned; its digest, for the entry that names it."""
        ...

    def photo(self, digest: str) -> bytes:
        """A photo that is kept."""
        ...
