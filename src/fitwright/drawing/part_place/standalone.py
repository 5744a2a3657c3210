"""A drawing of a place by itself, without the page's style: for a file, or a document to print."""

from __future__ import annotations

STYLE = (
    ".place-ink,.place-thin,.place-centre,.place-hatch,.place-line{fill:none;stroke:#000}"
    ".place-ink{stroke-width:1.5}.place-thin{stroke:#555;stroke-width:.8}"
    ".place-centre{stroke:#555;stroke-width:.8;stroke-dasharray:12 3 2 3}"
    ".place-hatch{stroke:#555;stroke-width:.6}.place-solid{fill:#fff;stroke:#000;stroke-width:1.2}"
    ".place-line,.place-arrow,.place-blade-end{stroke:#000;stroke-width:3}.place-arrow{fill:#000}"
    ".place-blade{fill:#000}.place-open{fill:#fff;stroke:#000;stroke-width:1.5}"
    ".place-read path{fill:none;stroke:#fff;stroke-width:1.6}"
    ".place-ring{fill:none;stroke:#000;stroke-width:2.5}"
    "text{font-family:sans-serif;fill:#000}.place-name{font-size:12px}"
    ".place-label{font-size:14px;font-weight:600}"
)
"""Black on white; the lit place stands out by its weight, never by colour."""


def standalone(drawing: str) -> str:
    """The same drawing with its style inside, black on white.

    Only for where no page gives the style: a strict content security policy forbids it inline.
    """
    start = drawing.index(">") + 1
    return f"{drawing[:start]}<style>{STYLE}</style>{drawing[start:]}"
