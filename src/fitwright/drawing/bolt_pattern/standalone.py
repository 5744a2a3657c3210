"""The bolt pattern as a file of its own, its style inside: for a document, black on white."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Final

from fitwright.drawing.canvas import Picture
from fitwright.drawing.oil_style import style as figure_style

_PRINTED: Final = {
    "paper": "#ffffff",
    "ink": "#000000",
    "small": "#222222",
    "line": "#555555",
    "touch": "#000000",
    "outside": "#000000",
    "hot": "#bbbbbb",
}
"""The colours of a page as it is printed."""
_VARIABLE: Final = re.compile(r"var\(--([a-z]+), #[0-9a-f]+\)")
_COMMENT: Final = re.compile(r"/\*.*?\*/", re.DOTALL)


@cache
def _style() -> str:
    own = (files("fitwright") / "web" / "static" / "bolt_pattern.css").read_text(encoding="utf-8")
    whole = _COMMENT.sub("", figure_style() + own)
    return _VARIABLE.sub(lambda found: _PRINTED[found[1]], whole)


def standalone(picture: Picture) -> str:
    """The picture as the text of an SVG file, black on white, without variables of a page."""
    head, _, rest = picture.svg.partition(">")
    size = f' width="{picture.width:g}" height="{picture.height:.0f}"'
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{head}{size}><style>{_style()}</style>{rest}\n'
