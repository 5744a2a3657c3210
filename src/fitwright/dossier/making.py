"""A dossier made: the document, its pages, the data that travel with them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from fitwright.dossier.asked import Asked
from fitwright.dossier.data import DossierData, Forms, Versions, data_digest, data_text, forms_of
from fitwright.dossier.document import document_of
from fitwright.dossier.head import Head
from fitwright.dossier.key import Signer, signature_text
from fitwright.dossier.known import Known
from fitwright.dossier.pictures import Printed, printed
from fitwright.dossier.printing import Attached, pdf_of, pictures_of
from fitwright.dossier.tree import Document, PhotosShown
from fitwright.records.entry import Acknowledgement


@dataclass(frozen=True, slots=True)
class Material:
    """What a dossier is made of: the build played again, the whole record's head and digests, sheets."""

    known: Known
    head: Acknowledgement
    digests: tuple[str, ...]
    sheets: Mapping[str, str]
    photo: Callable[[str], bytes]
    forms: Forms = forms_of

    def document(self, asked: Asked) -> Document:
        """The document alone."""
        return document_of(self.known, asked, Head(self.head.seq, self.head.hash))


@dataclass(frozen=True, slots=True)
class Dossier:
    """A dossier as it goes out."""

    document: Document
    asked: Asked
    head: Acknowledgement
    pdf: bytes
    data: str
    signed_by: str | None = None

    @property
    def title(self) -> str:
        """Its title."""
        return self.document.title

    @property
    def revision(self) -> int | None:
        """Its number, None for a draft."""
        return self.asked.revision

    @property
    def data_digest(self) -> str:
        """The digest by which it is known."""
        return data_digest(self.data)

    @property
    def file_name(self) -> str:
        """What its file is usually called."""
        number = f"revision-{self.revision}" if self.revision is not None else "draft"
        plain = "".join(each if each.isalnum() or each in "-_" else "-" for each in self.asked.build)
        return f"{plain}-dossier-{number}.pdf"

    @property
    def pages(self) -> int:
        """How many pages it has."""
        from fitwright.dossier.reading import page_count

        return page_count(self.pdf)


def make_dossier(material: Material, asked: Asked, signer: Signer | None = None) -> Dossier:
    """Make a dossier; the same material and wishes give the same bytes.

    Raises
    ------
    PrintingError
        If it cannot be printed as it is.
    """
    document = material.document(asked)
    pictures = pictures_for(document, material.photo)
    text = data_text(
        DossierData(
            made_by=Versions.here(),
            asked=asked,
            head=material.head,
            entries=material.known.entries,
            carried=tuple(each.seq for each in material.known.entries),
            digests=material.digests,
            sheets=material.sheets,
            photos=pictures.shown,
        ),
        material.forms,
    )
    signature = signature_text(signer, text) if signer is not None else None
    pdf = pdf_of(document, Attached(text, signature, pictures.pictures))
    return Dossier(document, asked, material.head, pdf, text, signer.fingerprint if signer else None)


def pictures_for(document: Document, photo: Callable[[str], bytes]) -> Printed:
    """The pictures that a document shows."""
    return printed(photos_in(document), photo)


def photos_in(document: Document) -> tuple[str, ...]:
    """The photos that a document shows, by their digests."""
    blocks = (block for section in document.sections for block in section.blocks)
    return tuple(each.digest for block in blocks if isinstance(block, PhotosShown) for each in block.photos)


def page_pictures(material: Material, asked: Asked, *, dots_per_inch: float = 72.0) -> list[bytes]:
    """The pages as pictures, to look at."""
    document = material.document(asked)
    attached = Attached(photos=pictures_for(document, material.photo).pictures)
    return pictures_of(document, attached, dots_per_inch=dots_per_inch)
