"""Drawings of the pages as they are printed: with their style inside, black on white."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Final

from fitwright.drawing.limit_picture import HEIGHT, WIDTH

_PRINTED: Final = {
    "paper": "#ffffff",
    "ink": "#000000",
    "small": "#222222",
    "line": "#555555",
    "touch": "#000000",
    "outside": "#000000",
    "hot": "#cccccc",
}
"""The colours of a page as a printer without colour shows them."""

_SHEETS: Final = ("oil_pictures.css", "bolt_pattern.css")
_VARIABLE: Final = re.compile(r"var\(--([a-z]+)(?:, ?#[0-9a-f]+)?\)")
_COMMENT: Final = re.compile(r"/\*.*?\*/", re.DOTALL)
_SHORT_FONT: Final = re.compile(r"font: ?([0-9.]+px) ([^;}]+)")
_BOLD: Final = 'font-weight: 600; font-family: "IBM Plex Sans SmBld"'
_NARROW: Final = f'viewBox="0 0 {WIDTH:g} {HEIGHT:g}"'
_WIDE: Final = f'viewBox="0 0 {WIDTH + 48:g} {HEIGHT:g}"'
_ASIDE: Final = '<g transform="translate(24 0)">'
"""Room beside a limit scale for the numbers at its ends, which stand out further on paper."""
_END: Final = "</svg>"
_OWN: Final = """
.limit-scale text { font-family: "IBM Plex Mono"; }
.axis { stroke: var(--line); stroke-width: 1; }
.tick { fill: var(--small); font-size: 15px; }
.bracket { fill: none; stroke: var(--ink); stroke-width: 2.2; }
.bracket-thumb { stroke-dasharray: 5 4; }
.bar { stroke: var(--ink); stroke-width: 1.4; }
.bar-within { fill: var(--ink); }
.bar-outside { fill: var(--paper); stroke: var(--ink); stroke-width: 3; }
.bar-unproven { fill: none; stroke-dasharray: 6 4; stroke-width: 1.6; }
.bar-open { fill: none; }
.arrow { fill: none; stroke: var(--ink); stroke-width: 1.6; }
.best { fill: var(--paper); stroke: var(--ink); stroke-width: 1.6; }
.bar-hot { fill: var(--hot); stroke: var(--ink); stroke-width: .8; }
.mark { fill: none; stroke: var(--ink); stroke-width: 3; }
.mark-question { fill: var(--ink); font-size: 26px; font-weight: 600; }
.qr-light { fill: #ffffff; } .qr-dark { fill: #000000; }
"""


@cache
def _style(*, scale: bool) -> str:
    """The style of limit scales and codes; that of the other drawings is longer."""
    text = _OWN
    if not scale:
        static = files("fitwright") / "web" / "static"
        text += "".join((static / name).read_text(encoding="utf-8") for name in _SHEETS)
    text = _VARIABLE.sub(lambda found: _PRINTED[found[1]], _COMMENT.sub("", text))
    text = _SHORT_FONT.sub(r"font-size: \1; font-family: \2", text)
    return text.replace("font-weight: 600", _BOLD)


def inked(svg: str) -> str:
    """A drawing of ours with its style inside, for the printer."""
    head, _, rest = svg.partition(">")
    if 'class="limit-scale"' in head:
        head, rest = head.replace(_NARROW, _WIDE), f"{_ASIDE}{rest.removesuffix(_END)}</g>{_END}"
    plain = 'class="limit-scale"' in head or 'class="qr"' in head
    return f"{head}><style>{_style(scale=plain)}</style>{rest}"
