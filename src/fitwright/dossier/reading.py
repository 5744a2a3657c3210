"""A PDF file read: how many pages, what is attached, what each page says and draws.

The file may come from anybody: its size and what it unpacks to are limited, and whatever is wrong with it
is one kind of error.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, Final, TypeVar

from fitwright.dossier.around import around_differing, labels_of
from fitwright.dossier.errors import NoDossierError

if TYPE_CHECKING:
    from pypdf import PageObject, PdfReader

T = TypeVar("T")

LARGEST: Final = 256 * 2**20
"""No dossier is larger [bytes]; photos are printed as copies."""
MOST_ATTACHMENTS: Final = 20
MOST_UNPACKED: Final = 512 * 2**20
"""What the pages of a dossier draw unpacks to less [bytes]."""
LARGEST_PAGE: Final = 16 * 2**20
"""No page of a dossier says more [bytes]; reading words goes slowly."""
_SHARED: Final = frozenset({"/Parent", "/StructParents", "/StructParent", "/Metadata"})
"""What a page has in common with others, or is ordered by: it draws nothing."""
_PACKING: Final = frozenset({"/Length", "/Filter", "/DecodeParms", "/StructParents", "/Metadata"})
_DEEPEST: Final = 60


@dataclass(frozen=True)
class ReadPdf:
    """A PDF file as far as it is held against anything."""

    file: str
    content: bytes

    @cached_property
    def _reader(self) -> PdfReader:
        if len(self.content) > LARGEST:
            raise NoDossierError(self.file, f"{len(self.content)} bytes are more than a dossier has")
        if not self.content.startswith(b"%PDF-"):
            raise NoDossierError(self.file, "it is no PDF file")
        from pypdf import PdfReader

        found = _tried(self.file, lambda: PdfReader(io.BytesIO(self.content), strict=False))
        if found.is_encrypted:
            raise NoDossierError(self.file, "it is encrypted")
        return found

    @property
    def pages(self) -> int:
        """How many pages it has."""
        return _tried(self.file, lambda: len(self._reader.pages))

    @cached_property
    def attachments(self) -> Mapping[str, tuple[bytes, ...]]:
        """What is attached, by name; a name may come more than once."""
        return _tried(self.file, self._attached)

    def _attached(self) -> dict[str, tuple[bytes, ...]]:
        found: dict[str, tuple[bytes, ...]] = {}
        for count, each in enumerate(self._reader.attachment_list):
            if count >= MOST_ATTACHMENTS:
                raise NoDossierError(self.file, "it has more attachments than a dossier")
            found[each.name] = (*found.get(each.name, ()), bytes(each.content))
        return found

    def words(self, page: int) -> str:
        """What a page says, its first being 0."""
        return _tried(self.file, lambda: self._words(self._reader.pages[page]))

    def _words(self, page: PageObject) -> str:
        held = page.get_contents()
        if held is not None and len(held.get_data()) > LARGEST_PAGE:
            raise NoDossierError(self.file, "one of its pages is larger than one of a dossier")
        return str(page.extract_text())

    def drawn(self, page: int) -> str:
        """A digest of all that a page draws: its marks, fonts, pictures, size, notes."""
        return _tried(self.file, lambda: self._marks.of_page(self._reader.pages[page]))

    def around(self, other: ReadPdf) -> tuple[str, ...]:
        """What beside the pages is not as in another file, in words: chapters, attachments, actions."""
        return _tried(self.file, lambda: tuple(around_differing(self._reader, other._reader)))

    @cached_property
    def labels(self) -> Mapping[str, str]:
        """What it says of itself beside its pages: title, author, subject."""
        return _tried(self.file, lambda: labels_of(self._reader))

    @cached_property
    def _marks(self) -> _Marks:
        return _Marks()

    def pictures(self) -> Iterator[bytes]:
        """Every JPEG picture that the pages draw, as it stands in the file."""
        seen: set[str] = set()
        for page in self._reader.pages:
            for each in _jpegs(page):
                digest = hashlib.sha256(each).hexdigest()
                if digest not in seen:
                    seen.add(digest)
                    yield each


def page_count(pdf: bytes) -> int:
    """How many pages a PDF of our own has."""
    return ReadPdf("the dossier", pdf).pages


def _tried(file: str, work: Callable[[], T]) -> T:
    """Whatever a reader of other people's files stumbles over is one error."""
    try:
        return work()
    except NoDossierError:
        raise
    except Exception as error:  # a reader of damaged files raises whatever it stumbles over
        raise NoDossierError(file, f"it cannot be read as PDF ({type(error).__name__}: {error})") from error


def _jpegs(page: PageObject) -> Iterator[bytes]:
    resources = page.get("/Resources")
    objects = resources.get_object().get("/XObject") if resources is not None else None
    for each in (objects.get_object() if objects is not None else {}).values():
        held = each.get_object()
        if held.get("/Subtype") == "/Image" and held.get("/Filter") in ("/DCTDecode", ["/DCTDecode"]):
            yield bytes(held._data)  # noqa: SLF001 - the bytes as they stand, which nothing public gives


@dataclass
class _Marks:
    """Digests of the objects of one file by what they hold, not by their numbers; each is worked out once."""

    known: dict[tuple[int, int], bytes] = field(default_factory=dict)
    open: dict[tuple[int, int], int] = field(default_factory=dict)
    unpacked: int = 0

    def of_page(self, page: PageObject) -> str:
        """All that a page draws."""
        found = hashlib.sha256()
        self._dictionary(found, page, 0, leave=_SHARED)
        return found.hexdigest()

    def _named(self, reference: Any) -> bytes:  # noqa: ANN401 - a reference of the reader
        """An object that has a number; one that leads back to itself is not followed again."""
        number = int(reference.idnum), int(reference.generation)
        if number not in self.known:
            if number in self.open:
                return f"again, {len(self.open) - self.open[number]} up".encode()
            self.open[number] = len(self.open)
            found = hashlib.sha256()
            self._into(found, reference.get_object(), 0)
            del self.open[number]
            self.known[number] = found.digest()
        return self.known[number]

    def _into(self, found: Any, value: Any, depth: int) -> None:  # noqa: ANN401 - any PDF object
        from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, StreamObject

        if depth > _DEEPEST:
            raise NoDossierError("the file", "its objects lie deeper in each other than those of a dossier")
        if isinstance(value, IndirectObject):
            found.update(self._named(value))
        elif isinstance(value, StreamObject):
            found.update(b"stream")
            self._dictionary(found, value, depth, leave=_PACKING)
            found.update(hashlib.sha256(self._content_of(value)).digest())
        elif isinstance(value, DictionaryObject):
            self._dictionary(found, value, depth, leave=_SHARED)
        elif isinstance(value, ArrayObject):
            found.update(b"[")
            for each in value:
                self._into(found, each, depth + 1)
            found.update(b"]")
        else:
            found.update(f"{type(value).__name__}{value!r};".encode("utf-8", "surrogatepass"))

    def _dictionary(
        self,
        found: Any,  # noqa: ANN401 - a digest
        value: Any,  # noqa: ANN401 - a dictionary of the reader
        depth: int,
        *,
        leave: frozenset[str],
    ) -> None:
        found.update(b"<<")
        for name in sorted(value):
            if name not in leave:
                found.update(str(name).encode())
                self._into(found, value.raw_get(name), depth + 1)
        found.update(b">>")

    def _content_of(self, stream: Any) -> bytes:  # noqa: ANN401 - a stream of the reader
        """What a stream holds; a JPEG as it stands."""
        if stream.get("/Filter") in ("/DCTDecode", ["/DCTDecode"]):
            return bytes(stream._data)  # noqa: SLF001 - see above
        content = bytes(stream.get_data())
        self.unpacked += len(content)
        if self.unpacked > MOST_UNPACKED:
            raise NoDossierError("the file", "its pages unpack to more than those of a dossier")
        return content
