"""Nodes of the circuit in words, and where in the sheet's order of things they stand."""

from __future__ import annotations

from collections.abc import Sequence


def node_title(node: str) -> str:
    """A node as a person says it: `gallery.6` is "gallery 6", `pump.inlet` "pump inlet"."""
    return node.replace(".", " ").replace("_", " ")


def titles_in_short(titles: Sequence[str]) -> str:
    """Titles as one says them: what differs in its last number only is said once.

    >>> titles_in_short(["Main 1", "Main 2", "Main 3", "Cam bearing, inlet 4", "Big end 1", "Big end 3"])
    'Main 1 to 3; Cam bearing, inlet 4; Big end 1, 3'
    """
    numbers: dict[str, list[int]] = {}
    for title in titles:
        name, _, number = title.rpartition(" ")
        numbers.setdefault(name if number.isdecimal() and name else title, []).append(
            int(number) if number.isdecimal() and name else -1
        )
    return "; ".join(f"{name} {_runs(each)}".rstrip() for name, each in numbers.items())


def _runs(numbers: Sequence[int]) -> str:
    """Numbers in their order, three and more that follow each other as `1 to 3`; -1 stands for none."""
    runs: list[list[int]] = []
    for each in numbers:
        if runs and each == runs[-1][-1] + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    said = [
        f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(str(each) for each in run if each >= 0)
        for run in runs
    ]
    return ", ".join(said)
