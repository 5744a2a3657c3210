"""A document as a tree of plain blocks: what is said and in which order, nothing of how it is printed.

Everything in it is text, numbers and pictures as text, so that it is tested as text and goes to the
printer as JSON. Pictures are SVG of our own with a text that says the same.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass
from typing import Any, ClassVar, Literal

Style = Literal["plain", "lead", "small", "caution"]
Align = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph."""

    block: ClassVar[str] = "words"
    words: str
    style: Style = "plain"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside a section."""

    block: ClassVar[str] = "heading"
    words: str


@dataclass(frozen=True, slots=True)
class Points:
    """A list of short sentences."""

    block: ClassVar[str] = "points"
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Facts:
    """Names with what is known under them."""

    block: ClassVar[str] = "facts"
    title: str
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its head, its share of the width, on which side its words stand."""

    title: str
    share: float = 1.0
    align: Align = "left"
    mono: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its head repeated on each page; every row has one text for each column.

    A row of one text alone is a heading across the table, for the rows below it.
    """

    block: ClassVar[str] = "table"
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Scale:
    """One fit with its limit scale: what it is held against, what the readings prove, in words and drawn."""

    name: str
    source: str
    limits: str
    verdict: str
    value: str
    notes: tuple[str, ...]
    svg: str
    alt: str


@dataclass(frozen=True, slots=True)
class Scales:
    """Fits under each other, each with its scale."""

    block: ClassVar[str] = "scales"
    title: str
    rows: tuple[Scale, ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of ours with a text that says the same; `share` of the width of the page."""

    block: ClassVar[str] = "drawing"
    svg: str
    alt: str
    caption: str = ""
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class PhotoShown:
    """A photo by the digest that the record names it with."""

    digest: str
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class PhotosShown:
    """Photos side by side."""

    block: ClassVar[str] = "photos"
    photos: tuple[PhotoShown, ...]


Block = Words | Heading | Points | Facts | Table | Scales | Drawing | PhotosShown


@dataclass(frozen=True, slots=True)
class Section:
    """A chapter; `opens_page` where it begins a page of its own.

    The long chapters of the complete dossier do: they are found more easily, and the printer lays out
    such runs of pages side by side.
    """

    id: str
    title: str
    blocks: tuple[Block, ...]
    opens_page: bool = False


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """Something that is open: what, why, and what would settle it."""

    kind: str
    title: str
    why: str
    settle: str = ""


@dataclass(frozen=True, slots=True)
class Cover:
    """The first page: what it is, of which build, for whom, from which state of the record."""

    title: str
    subtitle: str
    standing: str
    facts: tuple[tuple[str, str], ...]
    owner_words: str
    summary: str
    counts: tuple[tuple[str, str], ...]
    says: str
    head: str
    qr: str
    qr_alt: str


@dataclass(frozen=True, slots=True)
class Document:
    """A whole dossier. `revision` is None in a draft; `foot` stands on every page."""

    title: str
    build: str
    depth: str
    paper: str
    units: str
    draft: bool
    revision: int | None
    as_of: str
    foot: str
    cover: Cover
    open_points: tuple[OpenPoint, ...]
    sections: tuple[Section, ...]


def as_data(value: object) -> Any:  # noqa: ANN401 - whatever JSON holds
    """The tree as JSON holds it; each block says which it is.

    >>> as_data(Words("Not measured."))
    {'block': 'words', 'words': 'Not measured.', 'style': 'plain'}
    """
    if is_dataclass(value) and not isinstance(value, type):
        kind = getattr(value, "block", None)
        named = {"block": kind} if kind is not None else {}
        return named | {each.name: as_data(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, tuple):
        return [as_data(each) for each in value]
    return value
