"""How much of a band can be proven: brackets at the limits, a bar for what would be proven within."""

from __future__ import annotations

from typing import Final

WIDTH, HEIGHT, EDGE = 150.0, 22.0, 10.0
LEAST: Final = 3.0
"""The thinnest bar drawn, so that a sliver can be seen."""


def proof_bar(share: float | None, sides: tuple[bool, bool], *, can: bool) -> str:
    """The drawing, decorative beside words that say the same.

    Parameters
    ----------
    share : float [1] or None
        Share of the band that can be proven; None where one side has no limit.
    sides : (bool, bool)
        Whether there is a lower and an upper limit.
    can : bool
        Whether anything can be proven at all.

    Returns
    -------
    str
        SVG of our own, without words.
    """
    left, right, middle = EDGE, WIDTH - EDGE, HEIGHT / 2.0
    parts = [f'<path class="axis" d="M0 {HEIGHT - 2:g}H{WIDTH:g}"/>']
    if sides[0]:
        parts.append(f'<path class="bracket" d="M{left + 6:g} 3H{left:g}V{HEIGHT - 5:g}H{left + 6:g}"/>')
    if sides[1]:
        parts.append(f'<path class="bracket" d="M{right - 6:g} 3H{right:g}V{HEIGHT - 5:g}H{right - 6:g}"/>')
    parts.append(_bar(share, sides, left, right, middle) if can else _nothing(middle))
    inner = "".join(parts)
    return (
        f'<svg class="proof-bar" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" aria-hidden="true" '
        f'focusable="false">{inner}</svg>'
    )


def _bar(share: float | None, sides: tuple[bool, bool], left: float, right: float, middle: float) -> str:
    if share is None:  # one limit: proven from a guard band inside it on
        start, end = (left + 14.0, WIDTH) if sides[0] else (0.0, right - 14.0)
    else:
        width = max(share * (right - left), LEAST)
        start = (left + right - width) / 2.0
        end = start + width
    return (
        f'<rect class="bar bar-within" x="{start:g}" y="{middle - 5:g}" width="{end - start:g}" height="8"/>'
    )


def _nothing(middle: float) -> str:
    return f'<path class="mark mark-outside" d="M{WIDTH / 2 - 5:g} {middle - 6:g}l10 10m0 -10l-10 10"/>'
