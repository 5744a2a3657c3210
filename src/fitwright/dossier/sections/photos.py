"""The photos that the record names, with what they show."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.dossier.sections.teller import Teller, at_of, counted, day_of
from fitwright.dossier.tree import Block, Column, PhotoShown, PhotosShown, Section, Table, Words
from fitwright.records.kinds import Photo
from fitwright.records.projection import Recorded

MOST_IN_OWNERS = 6
"""So many photos stand in the owner's copy; the others are counted."""


def photos(teller: Teller) -> Section | None:
    """The chapter of the photos."""
    found = teller.known.photos
    if not found:
        return None
    shown = found if teller.complete else found[-MOST_IN_OWNERS:]
    blocks: list[Block] = [PhotosShown(tuple(_shown(teller, each) for each in shown))]
    if len(shown) < len(found):
        left = counted(len(found) - len(shown), "photo is", "photos are")
        blocks.append(Words(f"{left} in the complete dossier only.", "small"))
    if teller.complete:
        blocks.append(
            Table(
                "Photos by their digests",
                (
                    Column("Entry", 0.6, "right", mono=True),
                    Column("What", 2.0),
                    Column("SHA-256", 3.4, mono=True),
                ),
                tuple(_digests(teller)),
            )
        )
    return Section("photos", "Photos", tuple(blocks))


def _shown(teller: Teller, held: Recorded[Photo]) -> PhotoShown:
    about = teller.about(held.body.subject)
    caption = held.body.caption or ""
    said = about.rstrip(".").endswith(caption.rstrip(".")) if about else False
    words = about if said else ": ".join(each for each in (about, caption) if each) or "no caption"
    told = (
        f"{words} ({teller.person(held.entry.person)}, {day_of(at_of(held.entry))}, entry {held.entry.seq})"
    )
    return PhotoShown(held.body.digest, f"Photo: {words}", told)


def _digests(teller: Teller) -> Iterator[tuple[str, ...]]:
    for entry, body in teller.known.photos:
        yield str(entry.seq), body.caption or teller.about(body.subject) or "–", spaced(body.digest)


def spaced(digest: str) -> str:
    """A digest in groups of eight, so that it can be read and broken.

    >>> spaced("0123456789abcdef")
    '01234567 89abcdef'
    """
    return " ".join(digest[at : at + 8] for at in range(0, len(digest), 8))
