"""A document tree turned into pages: PDF for people and archives, PNG to look at.

The template is part of the package and the only source that is ever compiled; all that is said goes in as
data. The same data gives the same bytes. A warning of the printer is a failure: a missing glyph or a table
too wide for its page would be read as what it is not.
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Mapping
from contextlib import ExitStack
from dataclasses import dataclass, field
from importlib.resources import as_file, files
from pathlib import Path
from typing import Any, Final, Literal

from fitwright.dossier.errors import PrintingError
from fitwright.dossier.glyphs import printable_data
from fitwright.dossier.ink import inked
from fitwright.dossier.tree import Document, as_data
from fitwright.records.times import moment_of

STANDARDS: Final = ("a-3a", "ua-1")
"""PDF/A-3a keeps the data with the pages, PDF/UA-1 makes them readable to who cannot see them."""
ADVICE: Final = (
    "Advice from recorded readings: the engine maker's manual governs, a qualified person decides."
)


@dataclass(frozen=True, slots=True)
class Attached:
    """What goes into the file beside the pages: the data, the shop's signature, photos by their digests."""

    data: str | None = None
    signature: str | None = None
    photos: Mapping[str, bytes] = field(default_factory=dict)


def pdf_of(document: Document, attached: Attached) -> bytes:
    """The document as PDF/A-3a and PDF/UA-1."""
    found = _compiled(document, attached, "pdf")
    assert isinstance(found, bytes)  # noqa: S101 - one file
    return found


def pictures_of(document: Document, attached: Attached, *, dots_per_inch: float = 72.0) -> list[bytes]:
    """Each page as a PNG picture."""
    found = _compiled(document, Attached(photos=attached.photos), "png", ppi=dots_per_inch)
    return found if isinstance(found, list) else [found]


def _compiled(
    document: Document, attached: Attached, form: Literal["pdf", "png"], *, ppi: float | None = None
) -> bytes | list[bytes]:
    import typst

    with ExitStack() as stack:
        room = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="fitwright-dossier-")))
        fonts = stack.enter_context(as_file(files("fitwright.dossier") / "fonts"))
        template = files("fitwright.dossier") / "template" / "dossier.typ"
        (room / "main.typ").write_bytes(template.read_bytes())
        (room / "photos").mkdir()
        for digest, picture in attached.photos.items():
            (room / "photos" / digest).write_bytes(picture)
        try:
            found, warnings = typst.compile_with_warnings(
                room / "main.typ",
                root=room,
                font_paths=[fonts],
                ignore_system_fonts=True,
                format=form,
                ppi=ppi,
                sys_inputs={"data": json.dumps(_inputs(document, attached), ensure_ascii=False)},
                pdf_standards=list(STANDARDS) if form == "pdf" else [],
                timestamp=int(moment_of(document.as_of).timestamp()),
            )
        except (typst.TypstError, RuntimeError, ValueError) as error:
            raise PrintingError(str(error).splitlines()[0]) from error
    if warnings:
        raise PrintingError("; ".join(each.message for each in warnings))
    return found


def _inputs(document: Document, attached: Attached) -> dict[str, Any]:
    tree = _with_ink(printable_data(as_data(document)))
    return {
        "document": tree,
        "photos": sorted(attached.photos),
        "advice": ADVICE,
        "code": tree["cover"]["qr"],
        "code_alt": tree["cover"]["qr_alt"],
        "attachment": attached.data,
        "signature": attached.signature,
    }


def _with_ink(value: Any) -> Any:  # noqa: ANN401 - whatever JSON holds
    if isinstance(value, list):
        return [_with_ink(each) for each in value]
    if isinstance(value, dict):
        return {
            name: inked(each) if name in ("svg", "qr") else _with_ink(each) for name, each in value.items()
        }
    return value
