"""The Corrie Five assembled: from the clean block to the first pull, in the order of the work."""

from __future__ import annotations

from tools.examples.assembling import Assembling
from tools.examples.corrie_five.assembly import bottom_end, closing, head, oil_system, running, shelf


def assemble(hands: Assembling) -> None:
    """Everything that was done after the trial build."""
    shelf.bring_in(hands.book)
    for stage in (bottom_end, oil_system, head, closing, running):
        stage.build(hands)
