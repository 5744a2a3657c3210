"""A PDF file read: how many pages, what is attached, what each page says and draws.

The file may come from anybody: its size and what it unpacks to are limited, and whatever is wrong with it
is one kind of error.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any, Final, TypeVar

from fitwright.dossier.errors import NoDossierError

if TYPE_CHECKING:
    from pypdf import PageObject, PdfReader

T = TypeVar("T")

LARGEST: Final = 256 * 2**20
"""No dossier is larger [bytes]; photos are printed as copies."""
MOST_ATTACHMENTS: Final = 20
_PASSED_OVER: Final = frozenset(
    {"/Parent", "/StructParents", "/StructParent", "/P", "/Dest", "/D", "/Metadata"}
)
"""What a page shares with others or what only orders it: it draws nothing."""
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

        return _tried(self.file, lambda: PdfReader(io.BytesIO(self.content), strict=False))

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
        return _tried(self.file, lambda: str(self._reader.pages[page].extract_text()))

    def drawn(self, page: int) -> str:
        """A digest of all that a page draws: its marks, fonts, pictures, size, notes."""
        return _tried(self.file, lambda: _digest_of_page(self._reader.pages[page]))

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


def _digest_of_page(page: PageObject) -> str:
    found = hashlib.sha256()
    _into(found, page, 0, ())
    return found.hexdigest()


def _into(found: Any, value: Any, depth: int, above: tuple[int, ...]) -> None:  # noqa: ANN401 - any PDF object
    """Put an object into a digest by what it holds, not by its number in the file."""
    from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, StreamObject

    if isinstance(value, IndirectObject):
        if value.idnum in above or depth > _DEEPEST:
            found.update(b"again")
            return
        _into(found, value.get_object(), depth + 1, (*above, value.idnum))
    elif isinstance(value, StreamObject):
        found.update(b"stream")
        _into_dictionary(found, value, depth, above, leave=frozenset({"/Length", "/Filter", "/DecodeParms"}))
        found.update(_content_of(value))
    elif isinstance(value, DictionaryObject):
        _into_dictionary(found, value, depth, above)
    elif isinstance(value, ArrayObject):
        found.update(b"[")
        for each in value:
            _into(found, each, depth + 1, above)
        found.update(b"]")
    else:
        found.update(f"{type(value).__name__}{value!r};".encode("utf-8", "surrogatepass"))


def _content_of(stream: Any) -> bytes:  # noqa: ANN401 - a stream of the reader
    """What a stream holds; a JPEG as it stands."""
    if stream.get("/Filter") in ("/DCTDecode", ["/DCTDecode"]):
        return bytes(stream._data)  # noqa: SLF001 - see above
    return bytes(stream.get_data())


def _into_dictionary(
    found: Any,  # noqa: ANN401 - a digest
    value: Any,  # noqa: ANN401 - a dictionary of the reader
    depth: int,
    above: tuple[int, ...],
    *,
    leave: frozenset[str] = frozenset(),
) -> None:
    found.update(b"<<")
    for name in sorted(value):
        if name not in _PASSED_OVER and name not in leave:
            found.update(str(name).encode())
            _into(found, value.raw_get(name), depth + 1, above)
    found.update(b">>")
