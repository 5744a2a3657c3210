"""The pages made anew from the data, and each held against what is printed."""

from __future__ import annotations

import difflib
import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from fitwright.dossier.data import DossierData
from fitwright.dossier.document import document_of
from fitwright.dossier.head import Head
from fitwright.dossier.known import Known
from fitwright.dossier.making import photos_in
from fitwright.dossier.printing import Attached, pdf_of
from fitwright.dossier.reading import ReadPdf
from fitwright.dossier.verify.findings import Finding

SHOWN = 70
"""So many characters of what a page says stand in a finding."""


@dataclass(frozen=True, slots=True)
class Held:
    """What holding the pages gave: findings, what could not be decided, what is no fault.

    `copies` is how many photos are printed as smaller copies: what they show was not held against anything.
    """

    findings: tuple[Finding, ...] = ()
    undecided: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    copies: int = 0


@dataclass(frozen=True)
class PagesAgain:
    """The pages of a dossier beside those that its data give on this machine."""

    given: ReadPdf
    data: DossierData
    data_text: str
    signature: str | None
    same_versions: bool

    def held(self, known: Known) -> Held:
        """Hold them against each other, page by page, unless the files are the same to the byte."""
        document = document_of(known, self.data.asked, Head(self.data.head.seq, self.data.head.hash))
        pictures, missing = self._pictures(photos_in(document))
        missing = (*self._revision(known), *missing)
        again = pdf_of(document, Attached(self.data_text, self.signature, pictures))
        whole = sum(self.data.photos[name] == name for name in pictures)
        notes = (f"Photos printed as the record has them, by their digests: {whole}.",) if whole else ()
        found = self._held(again, missing, notes)
        return replace(found, copies=len(pictures) - whole)

    def _revision(self, known: Known) -> Iterator[Finding]:
        """Each revision follows on from the last one that the entries tell of."""
        last = max((each.body.revision for each in known.state.work.dossiers), default=0)
        if self.data.asked.revision not in (None, last + 1):
            words = f"the last one before it was {last}" if last else "none went out before it"
            yield Finding(f"it calls itself revision {self.data.asked.revision}, and {words}")

    def _held(self, again: bytes, missing: tuple[Finding, ...], notes: tuple[str, ...]) -> Held:
        if again == self.given.content:
            return Held(missing, notes=notes)
        mine = ReadPdf("the pages made anew", again)
        if self.same_versions:
            findings = (*missing, *self._differing(mine), *self._around(mine))
            saved = () if findings else ("Another program saved the file again; its pages are the same.",)
            return Held(findings, notes=(*notes, *saved))
        return self._other_versions(mine, missing, notes)

    def _around(self, mine: ReadPdf) -> Iterator[Finding]:
        """What a reader sees or runs beside the pages."""
        for part in self.given.around(mine):
            yield Finding(f"beside its pages the file has {part}, not as the record gives it")
        if self.given.labels != mine.labels:
            said = "; ".join(
                value for name, value in self.given.labels.items() if mine.labels.get(name) != value
            )
            words = f'says of itself "{said[:SHOWN]}"' if said else "leaves out its title or author"
            yield Finding(f"the file {words}, not what the record gives")

    def _pictures(self, shown: tuple[str, ...]) -> tuple[Mapping[str, bytes], tuple[Finding, ...]]:
        """The pictures of the file by the digests of the photos that they stand for."""
        there = {hashlib.sha256(each).hexdigest(): each for each in self.given.pictures()}
        found, missing = {}, []
        for digest in shown:
            wanted = self.data.photos.get(digest)
            if wanted is not None and wanted in there:
                found[digest] = there[wanted]
            elif wanted is not None:
                missing.append(Finding(f"the picture of photo {digest[:12]} was exchanged, or is missing"))
        missing += [
            Finding(f"photo {each[:12]} is in the data, and no page shows it")
            for each in self.data.photos
            if each not in shown
        ]
        return found, tuple(missing)

    def _differing(self, mine: ReadPdf) -> Iterator[Finding]:
        yield from self._count(mine)
        for page in range(min(mine.pages, self.given.pages)):
            if self.given.drawn(page) == mine.drawn(page):
                continue
            words = difference(self.given.words(page), mine.words(page))
            if words is None:
                words = (
                    "draws something else than the record gives, in the same words: "
                    "a drawing, a picture, a typeface or a mark put on it"
                )
            yield Finding(f"page {page + 1} {words}", page=page + 1)

    def _count(self, mine: ReadPdf) -> Iterator[Finding]:
        if mine.pages != self.given.pages:
            yield Finding(f"the file has {self.given.pages} pages, the record gives {mine.pages}")

    def _other_versions(self, mine: ReadPdf, missing: tuple[Finding, ...], notes: tuple[str, ...]) -> Held:
        """Other versions may say and draw the same otherwise, and so may somebody who names another one."""
        made = self.data.made_by
        by = f"It was made by fitwright {made.fitwright} with typst {made.typst}, others than here"
        differing = next(self._differing(mine), None) or next(self._around(mine), None)
        if differing is None:
            return Held(missing, notes=(*notes, f"{by}; its pages are the same."))
        theirs, ours = self._said(self.given), self._said(mine)
        if theirs == ours:
            undecided = f"{by}: its words are the same, and what it draws could not be held against anything"
        else:
            words = difference("\n".join(theirs), "\n".join(ours)) or "says something else"
            undecided = f"{by}, and it {words}: that may be the versions"
        return Held(missing, (f"{undecided}; verify it with those that made it.",), notes)

    def _said(self, pdf: ReadPdf) -> list[str]:
        """All words in their order, but for what each page repeats and where its lines end."""
        return [each for page in range(pdf.pages) for each in pdf.words(page).split()]


def difference(given: str, wanted: str) -> str | None:
    """The first thing that a text says otherwise, in words; None where both say the same.

    >>> difference("0.054 mm within", "0.064 mm outside")
    'says "0.054 mm within" where the record gives "0.064 mm outside"'
    """
    first, second = (_lines(text) for text in (given, wanted))
    if first == second:
        return None
    for tag, a, b, c, d in difflib.SequenceMatcher(None, first, second, autojunk=False).get_opcodes():
        said, recorded = " ".join(first[a:b])[:SHOWN], " ".join(second[c:d])[:SHOWN]
        if tag == "insert":
            return f'leaves out "{recorded}"'
        if tag == "delete":
            return f'says "{said}", which the record does not give'
        if tag == "replace":
            return f'says "{said}" where the record gives "{recorded}"'
    return None


def _lines(text: str) -> list[str]:
    return [" ".join(each.split()) for each in text.splitlines() if each.strip()]
