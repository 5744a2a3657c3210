"""Head, camshafts, timing and lash, held for a second person."""

from __future__ import annotations

from tools.examples.assembling import Assembling
from tools.examples.corrie_five.assembly.bottom_end import OIL, PASTE


def build(hands: Assembling) -> None:
    """From the gasket to the released hold point."""
    _head(hands)
    _camshafts(hands)
    _timing(hands)
    hands.book.at("2025-02-27 16:10")
    hands.photographs("head.looked_at")
    hands.does("head.looked_at")
    hands.releases("head.looked_at", "foreman")


def _head(hands: Assembling) -> None:
    hands.book.at("2025-02-27 08:00")
    hands.book.eye_check("deck.stud_holes_dry", "blown out one by one, the gasket's lugs to the front")
    hands.photographs("head.on")
    hands.uses("assembly_paste", "head.on", **PASTE)
    for torque, wrench in (("30", "X2"), ("55", "X2"), ("75", "X3")):
        hands.tightens("head_nuts", wrench=wrench, torque=torque)
    hands.looks("head_nuts", "marked", by="builder")
    hands.looks("head_nuts", "checked", by="apprentice")
    hands.does("head.on")


def _camshafts(hands: Assembling) -> None:
    hands.book.at("2025-02-27 10:15")
    hands.uses("engine_oil", "camshafts.in", **OIL)
    for torque in ("5", "10"):
        hands.tightens("cam_caps", wrench="X1", torque=torque)
    hands.does("camshafts.in")


def _timing(hands: Assembling) -> None:
    hands.book.at("2025-02-27 13:00")
    hands.invites("timing.set", "invited", "For two o'clock.")
    hands.book.eye_check("timing.two_turns", "by the nose nut, both ways")
    hands.photographs("timing.set")
    hands.book.at("2025-02-27 14:40")
    hands.invites("timing.set", "did not come", "Held up; asked for the photo instead.")
    hands.does("timing.set")
    hands.does("lash.set", "Two shims changed in the trial build; the blades agree with what was read then.")
