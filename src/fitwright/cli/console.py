"""A console that keeps its tables whole when its output goes to a file."""

from __future__ import annotations

from rich.console import Console

WIDTH_WITHOUT_TERMINAL = 132


def console() -> Console:
    """As wide as the terminal; without one, wide enough for a table.

    Numbers are never coloured, and words of a sheet or record (`[/]`) never taken for markup.
    """
    probe = Console(highlight=False, markup=False, emoji=False)
    if probe.is_terminal:
        return probe
    return Console(width=WIDTH_WITHOUT_TERMINAL, highlight=False, markup=False, emoji=False)
