"""What stands in a PDF file around its pages, held against that of another: bookmarks, attachments, actions.

A reader of the file opens, runs, lists or reads aloud what hangs on its catalogue. Objects are followed side
by side, by what they hold and not by their numbers; a page is known by its number and held against elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from fitwright.dossier.errors import NoDossierError

if TYPE_CHECKING:
    from pypdf import PdfReader
    from pypdf.generic import DictionaryObject

_PARTS: Final[Mapping[str, str]] = {
    "/Names": "what is attached to it, named or run when it is opened",
    "/AF": "how its data are attached",
    "/OpenAction": "what happens when it is opened",
    "/AA": "what happens when it is opened, printed or closed",
    "/Outlines": "the list of its chapters",
    "/StructTreeRoot": "what it says to somebody who hears it read",
    "/AcroForm": "a form",
    "/Collection": "how its attachments are shown",
}
_ELSEWHERE: Final = frozenset({"/Type", "/Pages", "/Metadata", "/Version"})
"""Pages and metadata are held against for themselves; the version is the file's, not the document's."""
_OF_STREAMS: Final = frozenset({"/Length", "/Filter", "/DecodeParms"})
MOST_OBJECTS: Final = 2_000_000
"""More than the largest dossier has."""


_NUMBERS: Final = (int, float, Decimal)


class _Pair(NamedTuple):
    given: Any
    mine: Any


def around_differing(given: PdfReader, mine: PdfReader) -> Iterator[str]:
    """The parts of a file beside its pages that are not as in another, in words."""
    pages = _pages_of(given), _pages_of(mine)
    first, second = given.root_object, mine.root_object
    for name in sorted((first.keys() | second.keys()) - _ELSEWHERE):
        there = name in first and name in second
        if not there or not _alike(_Pair(first.raw_get(name), second.raw_get(name)), pages):
            yield _PARTS.get(name, f"its {name.lstrip('/')[:40]}")


def labels_of(reader: PdfReader) -> dict[str, str]:
    """What a file says of itself where readers show it: its title, author, subject, keywords."""
    found = {name: str(value) for name, value in (reader.metadata or {}).items() if name in _LABELS}
    held = reader.xmp_metadata
    if held is not None:
        for name in ("dc_title", "dc_description", "dc_creator", "dc_subject", "dc_rights", "pdf_keywords"):
            value = getattr(held, name)
            if value:
                found[name] = repr(value)
    return found


_LABELS: Final = frozenset({"/Title", "/Author", "/Subject", "/Keywords"})


def _pages_of(reader: PdfReader) -> dict[tuple[int, int], int]:
    references = (page.indirect_reference for page in reader.pages)
    return {(each.idnum, each.generation): at for at, each in enumerate(references) if each is not None}


def _alike(start: _Pair, pages: tuple[Mapping[tuple[int, int], int], Mapping[tuple[int, int], int]]) -> bool:
    """Whether two objects hold the same all the way down."""
    from pypdf.generic import IndirectObject

    todo, seen = [start], set()
    while todo:
        given, mine = todo.pop()
        if isinstance(given, IndirectObject) or isinstance(mine, IndirectObject):
            keys = _key(given), _key(mine)
            if keys in seen and None not in keys:
                continue
            seen.add(keys)
            if len(seen) > MOST_OBJECTS:
                raise NoDossierError("the file", "it has more objects than a dossier")
            numbers = tuple(held.get(key) if key else None for held, key in zip(pages, keys, strict=True))
            if numbers != (None, None):
                if numbers[0] != numbers[1]:
                    return False
                continue
            given, mine = _held(given), _held(mine)
        inner = _inner(given, mine)
        if inner is None:
            return False
        todo += inner
    return True


def _key(value: Any) -> tuple[int, int] | None:  # noqa: ANN401 - any PDF object
    from pypdf.generic import IndirectObject

    return (value.idnum, value.generation) if isinstance(value, IndirectObject) else None


def _held(value: Any) -> Any:  # noqa: ANN401 - any PDF object
    from pypdf.generic import IndirectObject

    for _ in range(8):
        if not isinstance(value, IndirectObject):
            return value
        value = value.get_object()
    raise NoDossierError("the file", "its references lead to nothing but references")


def _inner(given: Any, mine: Any) -> list[_Pair] | None:  # noqa: ANN401 - any PDF objects
    """What two objects hold, pair by pair; None where they differ."""
    from pypdf.generic import ArrayObject, DictionaryObject

    if isinstance(given, DictionaryObject) and isinstance(mine, DictionaryObject):
        return _named(given, mine)
    if isinstance(given, ArrayObject) and isinstance(mine, ArrayObject):
        each = zip(list.__iter__(given), list.__iter__(mine), strict=True)
        return [_Pair(*both) for both in each] if len(given) == len(mine) else None
    if isinstance(given, _NUMBERS) and isinstance(mine, _NUMBERS):
        return [] if float(given) == float(mine) else None
    return [] if type(given) is type(mine) and given == mine else None


def _named(given: DictionaryObject, mine: DictionaryObject) -> list[_Pair] | None:
    from pypdf.generic import StreamObject

    packing: frozenset[str] = frozenset()
    if isinstance(given, StreamObject) or isinstance(mine, StreamObject):
        if not (isinstance(given, StreamObject) and isinstance(mine, StreamObject)):
            return None
        if given.get_data() != mine.get_data():
            return None
        packing = _OF_STREAMS
    names = given.keys() - packing
    if names != mine.keys() - packing:
        return None
    return [_Pair(given.raw_get(name), mine.raw_get(name)) for name in names]
