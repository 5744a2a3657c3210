"""Sump, covers, damper, flywheel and turbocharger on."""

from __future__ import annotations

from tools.examples.assembling import Assembling
from tools.examples.corrie_five.assembly.bottom_end import OIL
from tools.examples.corrie_five.assembly.oil_system import SEALANT
from tools.examples.corrie_five.bench import sit

LOCKER_LOW = {"batch": "L1 2204", "expires": "2025-12"}


def build(hands: Assembling) -> None:
    """Everything that closes the engine."""
    hands.book.at("2025-02-28 08:05")
    hands.uses("sealant", "sump.on", mixed_at="08:00", applied_at="08:04", **SEALANT)
    hands.does("sump.on")
    hands.book.at("2025-02-28 08:40")
    hands.uses("sealant", "covers.on", mixed_at="08:36", applied_at="08:40", **SEALANT)
    hands.does("covers.on")
    _damper(hands)
    _flywheel(hands)
    hands.book.at("2025-02-28 14:30")
    hands.photographs("turbocharger.on")
    hands.does("turbocharger.on")


def _damper(hands: Assembling) -> None:
    hands.book.at("2025-02-28 09:30")
    hands.uses("engine_oil", "damper.on", **OIL)
    hands.tightens("damper_bolt", wrench="X3", torque="180")
    hands.looks("damper_bolt", "marked", by="builder")
    hands.does("damper.on")


def _flywheel(hands: Assembling) -> None:
    """Back from the balancer, on eight new bolts, its face read."""
    book = hands.book
    book.at("2025-02-28 10:30")
    hands.uses("locker_low", "flywheel.on", mixed_at="10:27", applied_at="10:30", **LOCKER_LOW)
    hands.tightens("flywheel", wrench="X2", torque="30", bolts="FB")
    hands.tightens("flywheel", wrench="X3", torque="65")
    hands.looks("flywheel", "marked", by="builder")
    hands.looks("flywheel", "checked", by="foreman")
    hands.does("flywheel.on")
    sit(book, "T-35", "Flywheel bolted up, its face", {"dial indicator": "J1"}, attitude="nose down")
    book.values("flywheel.face_indicator", ["0.06"], "mm")
    book.person = "builder"
