"""A picture of the oil system as a file of its own, with the style of the page inside."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from fitwright.drawing.canvas import Picture


@cache
def style() -> str:
    """The style sheet of these pictures: one for page, print and file.

    Its colours are those of the page round a picture; without a page each has a value of its own.
    """
    return (files("fitwright") / "web" / "static" / "oil_pictures.css").read_text(encoding="utf-8")


def standalone(picture: Picture) -> str:
    """The picture as the text of an SVG file, on paper; printed it is black on white."""
    head, _, rest = picture.svg.partition(">")
    size = f' width="{picture.width:g}" height="{picture.height:.0f}"'
    paper = ".fig{background:#f7f4ec}@media print{.fig{background:#fff}}"
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{head}{size}><style>{style()}{paper}</style>{rest}\n'
