"""A whole file verified: data, chain, contents, pages, signature, and the shop's record if it is there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.dossier.data import FILE_NAME, DossierData, Versions, data_text, read_data
from fitwright.dossier.errors import DossierError, NoDossierError
from fitwright.dossier.key import FILE_NAME as SIGNATURE_NAME
from fitwright.dossier.key import checked_signature
from fitwright.dossier.known import AtHand, Desk, Known, known_from
from fitwright.dossier.reading import ReadPdf
from fitwright.dossier.verify.against import Against, ShopRecord, held_against
from fitwright.dossier.verify.chain import chain_findings
from fitwright.dossier.verify.contents import Reparse, content_findings
from fitwright.dossier.verify.findings import DossierVerification, Finding
from fitwright.dossier.verify.pages import Held, PagesAgain
from fitwright.model.sheet import Sheet

MOST_TOLD: Final = 40
"""So many findings of a file are told one by one."""


@dataclass(frozen=True, slots=True)
class Tools:
    """What other packages give: reading a sheet, parsing an amount."""

    read_sheet: Callable[[str], Sheet]
    reparse: Reparse
    desk: Desk = lambda fresh: fresh


def verify_dossier(
    pdf: bytes, *, file: str, tools: Tools, shop: ShopRecord | None = None
) -> DossierVerification:
    """Verify a dossier by itself, and against a shop's record where one is given.

    Raises
    ------
    NoDossierError
        If the file is no dossier, or carries nothing that could be held against anything.
    """
    given = ReadPdf(file, pdf)
    text = _attached(given, FILE_NAME)
    if text is None:
        raise NoDossierError(file, "it carries no data of a dossier")
    data = read_data(text, file=file)
    signature = _attached(given, SIGNATURE_NAME)
    findings = [*_attachments(given), *_form(data, text)]
    findings += [*chain_findings(data), *content_findings(data, tools.reparse)]
    signed_by, wrong = _signed(signature, text)
    findings += wrong
    held = _pages(PagesAgain(given, data, text, signature, Versions.here() == data.made_by), tools)
    against = held_against(data, text, shop) if shop is not None else None
    return _whole(given, data, [*findings, *held.findings], held, against, signed_by)


def _whole(
    given: ReadPdf,
    data: DossierData,
    findings: list[Finding],
    held: Held,
    against: Against | None,
    signed_by: str | None,
) -> DossierVerification:
    every = [*findings, *(against.findings if against is not None else ())]
    more = len(every) - MOST_TOLD
    told = every if more <= 0 else [*every[:MOST_TOLD], Finding(f"and {more} more of the kind")]
    return DossierVerification(
        file=given.file,
        build=data.asked.build,
        revision=data.asked.revision,
        head=data.head,
        made_by=data.made_by,
        entries=len(data.entries),
        pages=given.pages,
        findings=tuple(told),
        undecided=held.undecided,
        notes=(*held.notes, *_copies(held, against), *(against.notes if against is not None else ())),
        signed_by=signed_by,
        known_here=against.known if against is not None else None,
    )


def _copies(held: Held, against: Against | None) -> Iterator[str]:
    if held.copies and (against is None or not against.known):
        yield (
            f"Photos printed as smaller copies: {held.copies}; that they show what the record has can only "
            "be said with the shop's own photos (`--data`, or the page Verify of that shop)."
        )
    elif held.copies:
        yield f"Photos printed as smaller copies, each held against this shop's photo: {held.copies}."


def _attached(given: ReadPdf, name: str) -> str | None:
    """The one attachment of a name as text."""
    found = given.attachments.get(name, ())
    if not found:
        return None
    if len(found) > 1:
        raise NoDossierError(given.file, f"it carries {len(found)} attachments called {name}")
    try:
        return found[0].decode("utf-8")
    except UnicodeDecodeError:
        raise NoDossierError(given.file, f"its attachment {name} is no text") from None


def _attachments(given: ReadPdf) -> list[Finding]:
    strange = [name for name in given.attachments if name not in (FILE_NAME, SIGNATURE_NAME)]
    return [Finding(f'it also carries "{name[:60]}", which no dossier does') for name in strange]


def _form(data: DossierData, text: str) -> list[Finding]:
    """Nothing stands in the data that was not read: no other field, none twice."""
    try:
        same = data_text(data) == text
    except (TypeError, ValueError):  # something that JSON cannot carry, which its entry says too
        same = False
    return (
        [] if same else [Finding("its data hold more than those of a dossier, or the same in another form")]
    )


def _signed(signature: str | None, text: str) -> tuple[str | None, list[Finding]]:
    if signature is None:
        return None, []
    found = checked_signature(signature, text)
    if found is None:
        return None, [Finding("what is attached as a signature is none")]
    if not found.holds:
        return None, [Finding(f"the signature with the key {found.fingerprint} is not of these data")]
    return found.fingerprint, []


def _pages(again: PagesAgain, tools: Tools) -> Held:
    """The pages held against what the data give; data that cannot be played again are a finding."""
    try:
        return again.held(_known(again.data, tools))
    except DossierError as error:
        return Held((Finding(f"the pages cannot be made from the data: {str(error).rstrip('.')}"),))
    except Exception as error:  # noqa: BLE001 - data from anybody make anything fail
        return Held((Finding(f"the entries cannot be played again ({type(error).__name__}: {error})"),))


def _known(data: DossierData, tools: Tools) -> Known:
    sheets = {digest: tools.read_sheet(text) for digest, text in data.sheets.items()}
    return known_from(data.asked.build, data.entries, sheets, AtHand(desk=tools.desk))
