"""A console that keeps its tables whole when its output goes to a file."""

from __future__ import annotations

from rich.console import Console

WIDTH_WITHOUT_TERMINAL = 132


def console() -> Console:
    """As wide as the terminal; without one, wide enough for a table. Numbers are never coloured."""
    probe = Console(highlight=False)
    return probe if probe.is_terminal else Console(width=WIDTH_WITHOUT_TERMINAL, highlight=False)
