"""One blade of a set, seen on its edge: as thick as it is against the thickest of the set."""

from __future__ import annotations

from math import sqrt
from typing import Final

WIDTH, HEIGHT = 60.0, 26.0
THICKEST: Final = 18.0
THINNEST: Final = 1.4


def blade_shape(share: float, *, available: bool, plug: bool) -> str:
    """The drawing, decorative beside the marking.

    Parameters
    ----------
    share : float [1]
        Thickness over that of the thickest of the set.
    available : bool
        Whether the blade is there; a missing one is only an outline.
    plug : bool
        Whether it is a round plug: then all look alike, for they differ by too little to draw.

    Returns
    -------
    str
        SVG of our own, without words. Thickness is drawn by its root, or thin blades could not be seen.
    """
    kind = "edge" if available else "edge edge-missing"
    if plug:
        inner = f'<circle class="{kind}" cx="{WIDTH / 2:g}" cy="{HEIGHT / 2:g}" r="9"/>'
    else:
        thick = max(THICKEST * sqrt(min(share, 1.0)), THINNEST)
        top = (HEIGHT - thick) / 2.0
        inner = f'<rect class="{kind}" x="3" y="{top:.1f}" width="{WIDTH - 6:g}" height="{thick:.1f}"/>'
    return (
        f'<svg class="blade-shape" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" aria-hidden="true" '
        f'focusable="false">{inner}</svg>'
    )
