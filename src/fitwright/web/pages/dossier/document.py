"""The document of a dossier as a page shows it: the same words, tables and drawings as on paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import singledispatch
from typing import Final

from markupsafe import Markup

from fitwright.dossier import tree
from fitwright.web.addresses import photo_address

NOTHING_DRAWN: Final = Markup()
OPEN_POINTS: Final = "open-points"
"""The chapter that the page shows in full view above all others."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a table; alone, it is a heading across it."""

    cells: tuple[str, ...]
    across: bool


@dataclass(frozen=True, slots=True)
class Head:
    """The head of a column, and how its cells stand."""

    title: str
    style: str


@dataclass(frozen=True, slots=True)
class ScaleShown:
    """A fit with its limit scale."""

    name: str
    source: str
    limits: str
    verdict: str
    value: str
    notes: tuple[str, ...]
    drawing: Markup


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo: small here, whole at its address."""

    address: str
    small: str
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class BlockShown:
    """One block; `kind` says which of its fields hold something."""

    kind: str
    style: str = ""
    title: str = ""
    words: str = ""
    items: tuple[str, ...] = ()
    heads: tuple[Head, ...] = ()
    rows: tuple[Row, ...] = ()
    scales: tuple[ScaleShown, ...] = ()
    drawing: Markup = NOTHING_DRAWN
    pictures: tuple[Picture, ...] = ()


@dataclass(frozen=True, slots=True)
class SectionShown:
    """One chapter."""

    id: str
    title: str
    blocks: tuple[BlockShown, ...]


@dataclass(frozen=True, slots=True)
class PointShown:
    """One thing that is open."""

    title: str
    why: str
    settle: str


@dataclass(frozen=True, slots=True)
class PointGroup:
    """Things that are open in the same way."""

    kind: str
    points: tuple[PointShown, ...]


@dataclass(frozen=True, slots=True)
class DocumentShown:
    """The whole document: its cover, its open points by kind, its other chapters."""

    title: str
    standing: str
    summary: str
    counts: tuple[tuple[str, str], ...]
    facts: tuple[tuple[str, str], ...]
    owner_words: str
    says: str
    points: tuple[PointGroup, ...]
    open: int
    sections: tuple[SectionShown, ...]


def document_shown(document: tree.Document) -> DocumentShown:
    """A document as this page shows it."""
    cover = document.cover
    return DocumentShown(
        title=document.title,
        standing=cover.standing,
        summary=cover.summary,
        counts=cover.counts,
        facts=cover.facts,
        owner_words=cover.owner_words,
        says=cover.says,
        points=tuple(_groups(document)),
        open=len(document.open_points),
        sections=tuple(_section(document, each) for each in document.sections if each.id != OPEN_POINTS),
    )


def _groups(document: tree.Document) -> Iterator[PointGroup]:
    """The open points by kind, in their order: the gravest kind first."""
    for kind in dict.fromkeys(each.kind for each in document.open_points):
        mine = (each for each in document.open_points if each.kind == kind)
        yield PointGroup(kind, tuple(PointShown(each.title, each.why, each.settle) for each in mine))


def _section(document: tree.Document, each: tree.Section) -> SectionShown:
    blocks = tuple(_block(block, document.build) for block in each.blocks)
    return SectionShown(f"chapter-{each.id}", each.title, blocks)


@singledispatch
def _block(block: object, build: str) -> BlockShown:
    raise TypeError(f"{type(block).__name__} is no block of a document of {build}")


@_block.register
def _(block: tree.Words, build: str) -> BlockShown:
    del build
    return BlockShown("words", style=block.style, words=block.words)


@_block.register
def _(block: tree.Heading, build: str) -> BlockShown:
    del build
    return BlockShown("heading", words=block.words)


@_block.register
def _(block: tree.Points, build: str) -> BlockShown:
    del build
    return BlockShown("points", items=block.items)


@_block.register
def _(block: tree.Facts, build: str) -> BlockShown:
    del build
    return BlockShown("facts", title=block.title, rows=tuple(Row(each, across=False) for each in block.rows))


@_block.register
def _(block: tree.Table, build: str) -> BlockShown:
    del build
    heads = tuple(
        Head(each.title, " ".join(filter(None, (each.align, "number" if each.mono else ""))))
        for each in block.columns
    )
    rows = tuple(Row(each, across=len(each) == 1 < len(heads)) for each in block.rows)
    return BlockShown("table", title=block.title, words=block.note, heads=heads, rows=rows)


@_block.register
def _(block: tree.Scales, build: str) -> BlockShown:
    del build
    return BlockShown("scales", title=block.title, scales=tuple(_scale(each) for each in block.rows))


@_block.register
def _(block: tree.Drawing, build: str) -> BlockShown:
    del build
    return BlockShown("drawing", words=block.caption, drawing=Markup(block.svg))  # noqa: S704


@_block.register
def _(block: tree.PhotosShown, build: str) -> BlockShown:
    return BlockShown("photos", pictures=tuple(_picture(build, each) for each in block.photos))


def _scale(each: tree.Scale) -> ScaleShown:
    """A fit; the drawing is our own SVG, all text in it escaped."""
    return ScaleShown(
        each.name,
        each.source,
        each.limits,
        each.verdict,
        each.value,
        each.notes,
        Markup(each.svg),  # noqa: S704
    )


def _picture(build: str, each: tree.PhotoShown) -> Picture:
    small = photo_address(build, each.digest, small=True)
    return Picture(photo_address(build, each.digest), small, each.alt, each.caption)
