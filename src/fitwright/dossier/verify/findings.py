"""What verifying a dossier found, and all of it in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.dossier.data import Versions
from fitwright.records.entry import Acknowledgement

AGREES: Final = "The document agrees with the record it was made from."
AGREES_NOT: Final = "The document does not agree with the record it was made from."
OPEN: Final = "Whether the document agrees with the record it was made from is not decided."
NOTHING_ABOUT: Final = "That says nothing about the engine."
CANNOT_SEE: Final = (
    "By itself a document cannot show that entries of its build were left out of it together with all that "
    "it says of them: the shop's own record shows that (`--data`, or the page Verify of that shop), or a "
    "copy or a signature from before."
)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that does not agree: the entry or page (from 1), and what is wrong with it."""

    what: str
    seq: int | None = None
    page: int | None = None

    def __str__(self) -> str:
        """The finding as a sentence."""
        return f"{self.what[:1].upper()}{self.what[1:]}."


@dataclass(frozen=True, slots=True)
class DossierVerification:
    """What was found of one file.

    `undecided` says what could not be held against anything (other versions); `notes` what is no fault.
    `signed_by` is the fingerprint of the key whose signature holds, `known_here` whether the head is part of
    the chain of the shop that it was held against (None: against none).
    """

    file: str
    build: str
    revision: int | None
    head: Acknowledgement
    made_by: Versions
    entries: int
    pages: int
    findings: tuple[Finding, ...]
    undecided: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    signed_by: str | None = None
    known_here: bool | None = None

    @property
    def sound(self) -> bool:
        """Whether everything was held against the record, and agreed."""
        return not self.findings and not self.undecided

    @property
    def told(self) -> tuple[str, ...]:
        """All of it in sentences; the last says what it does not speak of."""
        return tuple(self._told())

    def _told(self) -> Iterator[str]:
        yield AGREES if self.sound else AGREES_NOT if self.findings else OPEN
        standing = f"revision {self.revision}" if self.revision is not None else "a draft, not handed over"
        yield (
            f"{self.file}: build {self.build}, {standing}, record up to "
            f"entry {self.head.seq}, head {self.head.hash}."
        )
        yield f"Looked at: {self.entries} entries carried of {self.head.seq}, {self.pages} pages."
        yield from map(str, self.findings)
        yield from self.undecided
        yield from self.notes
        yield self._signature()
        if not self.known_here:
            yield CANNOT_SEE
        yield NOTHING_ABOUT

    def _signature(self) -> str:
        if self.signed_by is None:
            return "It is not signed with a key."
        return (
            f"It is signed with the key {self.signed_by}; whose key that is, the file cannot say: "
            "compare it with what the shop told you by another way."
        )
