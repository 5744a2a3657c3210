"""Dossiers for tests: a small shop, a tree as text, and what a forger would do to a file."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

from PIL import Image
from pypdf import PdfReader, PdfWriter
from pypdf.generic import DecodedStreamObject, NameObject, NumberObject, StreamObject

from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.dossier.data import FILE_NAME
from fitwright.dossier.making import Dossier, pictures_for
from fitwright.dossier.printing import Attached, pdf_of
from fitwright.dossier.tree import Document, as_data
from fitwright.records.canonical import canonical_text
from fitwright.records.kinds import BuildStarted, Note, Part, Photo
from fitwright.wiring import Shop, open_shop
from tests.support import small_sheet

OWN, OTHER = "a", "b"
SECRET = "This concerns nobody but the other customer"
GAUGES = {"fitted": ("B", "S-BM"), "journal": ("M", "S-M")}


def small_shop(folder: Path) -> Shop:
    """A shop with two customers' builds to the small sheet, their entries mixed, and a photo of one."""
    shop = open_shop(folder)
    shop.write([shop.entry(body) for body in small_sheet.shop()])
    for code in (OWN, OTHER):
        body = BuildStarted(code=code, title=f"Build {code}", sheet="", owner_words="Make it last.")
        shop.start_build(code, small_sheet.SHEET, body)
        shop.write([shop.entry(small_sheet.sitting(), build=code)])
    for place in ("front", "rear"):
        for code in (OTHER, OWN):
            reads(shop, code, "journal", place, "55.450")
    reads(shop, OWN, "fitted", None, "55.500")
    shop.write([shop.entry(Note(text=SECRET), build=OTHER)])
    shop.write([shop.entry(Part(code="shell-9", title="Shell", serial="S9"), build=OWN)])
    digest = shop.keep_photo(photo(), "image/png")
    shop.write([shop.entry(Photo(digest=digest, media_type="image/png", caption="Journal"), build=OWN)])
    return shop


def reads(shop: Shop, code: str, dimension: str, place: str | None, text: str) -> str:
    """Take a reading; the id of its entry."""
    instrument, setting = GAUGES[dimension]
    taking = Taking(instrument=instrument, setting=setting)
    taken = take_value(shop.bench(code), dimension, place, text, taking)
    assert isinstance(taken, Taken), taken
    shop.write(taken.entries)
    return taken.reading.id


def photo(colour: str = "grey", size: tuple[int, int] = (64, 48), form: str = "PNG") -> bytes:
    """A picture of one colour."""
    out = io.BytesIO()
    Image.new("RGB", size, colour).save(out, form)
    return out.getvalue()


def texts(value: Any) -> Iterator[str]:
    """Every text of a tree but drawings, in order."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for each in value:
            yield from texts(each)
    elif isinstance(value, dict):
        for name, each in value.items():
            if name not in ("svg", "qr", "block"):
                yield from texts(each)


def as_text(document: Document) -> str:
    """A document as text, line by line."""
    return "\n".join(texts(as_data(document)))


def data_of(pdf: bytes) -> dict[str, Any]:
    """The data that a file carries."""
    (attached,) = PdfReader(io.BytesIO(pdf)).attachment_list
    found: dict[str, Any] = json.loads(attached.content)
    return found


def with_data(pdf: bytes, change: Callable[[dict[str, Any]], None]) -> bytes:
    """The same pages with other data, as somebody would write them who edits the attachment."""
    data = data_of(pdf)
    change(data)
    return with_attachment(pdf, canonical_text(data).encode())


def change_a_reading(data: dict[str, Any]) -> None:
    """Make a reading a little larger."""
    entry = next(each for each in data["entries"] if each["kind"] == "reading")
    entry["body"]["observation"]["value"]["si"] += 1e-6


def with_attachment(pdf: bytes, content: bytes) -> bytes:
    """The same pages with other data."""
    return with_named(pdf, FILE_NAME, content)


def with_named(pdf: bytes, name: str, content: bytes) -> bytes:
    """The same pages with another attachment of a name."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf)))
    names = writer.root_object["/Names"]["/EmbeddedFiles"]["/Names"]  # type: ignore[index]
    for at in range(0, len(names), 2):
        if names[at] == name:
            held = names[at + 1].get_object()["/EF"]
            stream = DecodedStreamObject()
            stream.set_data(content)
            for each in ("/Type", "/Subtype", "/Params"):
                stream[NameObject(each)] = held["/F"].get_object()[each]
            stream["/Params"][NameObject("/Size")] = NumberObject(len(content))  # type: ignore[index]
            for each in ("/F", "/UF"):
                if each in held:
                    held[NameObject(each)] = writer._add_object(stream)
    return _bytes(writer)


def saying(made: Dossier, old: str, new: str, photo_of: Callable[[str], bytes]) -> bytes:
    """A forger's file: pages that say something else, with the data of the true ones."""
    document = changed(made.document, old, new)
    assert document != made.document, f"nothing says {old!r}"
    pictures = pictures_for(made.document, photo_of)
    return pdf_of(document, Attached(made.data, None, pictures.pictures))


def changed(value: Any, old: str, new: str) -> Any:
    """A tree with a text replaced wherever it stands."""
    if isinstance(value, str):
        return value.replace(old, new)
    if isinstance(value, tuple):
        return tuple(changed(each, old, new) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        names = [each.name for each in fields(value)]
        return replace(value, **{name: changed(getattr(value, name), old, new) for name in names})
    return value


def redrawn(pdf: bytes, change: Callable[[PdfWriter], None]) -> bytes:
    """A file that somebody worked on with a PDF library."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf)))
    change(writer)
    return _bytes(writer)


def painted_over(writer: PdfWriter, page: int) -> None:
    """Paint a white box on a page: its words stay, nobody sees them."""
    held = writer.pages[page]
    stream = StreamObject()
    stream._data = held.get_contents().get_data() + b"\nq 1 g 60 500 200 40 re f Q\n"  # type: ignore[union-attr]
    held[NameObject("/Contents")] = writer._add_object(stream)


def _bytes(writer: PdfWriter) -> bytes:
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
