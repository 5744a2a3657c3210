"""In which order tests run: first what all wait for, then what lasts longest, then the rest by chance."""

from __future__ import annotations

from pathlib import Path

import pytest
from xdist.remote import Producer
from xdist.scheduler import LoadScopeScheduling

PHYSICS = "src/fitwright/physics/"
KERNELS = "examples of all that is compiled"
_COMPILED = {each.parent.name for each in Path(__file__).parents[2].glob(f"{PHYSICS}*/kernels")}


def unit_of(nodeid: str) -> str:
    """What one worker runs in one go: a module or class; all examples that compile, so that one compiles."""
    path, _, _ = nodeid.partition("::")
    if path.startswith(PHYSICS) and path.removeprefix(PHYSICS).partition("/")[0] in _COMPILED:
        return KERNELS
    return nodeid.rpartition("::")[0]


def rank_of(item: pytest.Item) -> int:
    """Where a test stands: what compiles begins at once beside the first of the long ones."""
    if unit_of(item.nodeid) == KERNELS:
        return 0
    return 1 if item.get_closest_marker("long") is not None else 2


class Units(LoadScopeScheduling):  # type: ignore[misc]  # xdist has no types
    """Gives out the units in the order in which they were collected."""

    def __init__(self, config: pytest.Config, log: Producer | None = None) -> None:
        super().__init__(config, log)
        config.option.loadscopereorder = False  # by the number of tests, the few long ones would come last

    def _split_scope(self, nodeid: str) -> str:
        return unit_of(nodeid)
