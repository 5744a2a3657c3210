"""What every assembly uses up; how long each can be worked and takes to cure stands on its label."""

from __future__ import annotations

from typing import Final

from fitwright.starter.blocks import TableBlock

_LABEL: Final = ('pot_life = "... min"', 'cure_time = "... h"')


def consumables() -> tuple[TableBlock, ...]:
    """Oil, sealant and threadlocker, their times left to be read off the label."""
    return (
        TableBlock(
            section="consumables",
            key="engine_oil",
            values={
                "title": "Engine oil, for assembly",
                "kind": "lubricant",
                "friction": "engine oil",
                "batch_wanted": False,
            },
        ),
        TableBlock(
            section="consumables",
            key="sealant",
            values={"title": "Joint sealant", "kind": "sealant", "not_on": "faces that pass oil"},
            to_fill=("As its label says; without cure_time nothing waits until it has cured:", *_LABEL),
        ),
        TableBlock(
            section="consumables",
            key="threadlocker",
            values={
                "title": "Threadlocker",
                "kind": "threadlocker",
                "friction": "threadlocker",
                "not_on": "joints that are tightened again",
            },
            comment=(
                "Only where the maker says so: write it as lubricant of that group, and locking with it.",
            ),
            to_fill=_LABEL,
        ),
    )
