"""The few SVG elements that the drawings are made of. Text is escaped; no style is inline."""

from __future__ import annotations

from html import escape


def number(value: float) -> str:
    """A coordinate to a hundredth, without a tail of zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("", "-0") else text


def line(x1: float, y1: float, x2: float, y2: float, cls: str) -> str:
    """A straight line."""
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f'<line {ends} class="{escape(cls)}"/>'


def rect(x: float, y: float, width: float, height: float, cls: str) -> str:
    """A rectangle."""
    return (
        f'<rect x="{number(x)}" y="{number(y)}" width="{number(max(width, 0.0))}" '
        f'height="{number(height)}" class="{escape(cls)}"/>'
    )


def circle(x: float, y: float, radius: float, cls: str) -> str:
    """A circle."""
    return f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}" class="{escape(cls)}"/>'


def path(data: str, cls: str) -> str:
    """A path."""
    return f'<path d="{escape(data)}" class="{escape(cls)}"/>'


def text(x: float, y: float, content: str, cls: str, anchor: str = "middle") -> str:
    """A line of text."""
    return (
        f'<text x="{number(x)}" y="{number(y)}" text-anchor="{escape(anchor)}" '
        f'class="{escape(cls)}">{escape(content)}</text>'
    )


def document(width: float, height: float, label: str, parts: list[str], cls: str) -> str:
    """A whole drawing, with a name for who cannot see it."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(width)} {number(height)}" '
        f'role="img" aria-label="{escape(label, quote=True)}" class="{escape(cls)}">{"".join(parts)}</svg>'
    )
