"""Pump closed, centred and dowelled, pickup and rear seal on, held for a second person."""

from __future__ import annotations

from tools.examples.assembling import Assembling

LOCKER = {"batch": "M2 7790", "expires": "2025-11"}
SEALANT = {"batch": "S 0346", "expires": "2025-09"}


def build(hands: Assembling) -> None:
    """From the packed pump to the released hold point."""
    _pump(hands)
    _pickup_and_seal(hands)
    hands.book.at("2025-02-26 16:00")
    hands.photographs("oil_system.looked_at")
    hands.does("oil_system.looked_at")
    hands.releases("oil_system.looked_at", "foreman")


def _pump(hands: Assembling) -> None:
    hands.book.at("2025-02-26 09:00")
    hands.book.eye_check("pump.plunger_drops", "dry, then oiled")
    hands.uses("locker_medium", "pump.closed", mixed_at="09:02", applied_at="09:04", **LOCKER)
    for torque in ("2.5", "5"):
        hands.tightens("pump_cover", wrench="X1", torque=torque)
    hands.looks("pump_cover", "marked", by="builder")
    hands.does("pump.closed", "Packed with oil, rotor marks together.")
    hands.book.at("2025-02-26 10:10")
    hands.uses("locker_medium", "pump.on", mixed_at="10:08", applied_at="10:10", **LOCKER)
    for torque in ("5", "9.5"):
        hands.tightens("pump_body", wrench="X1", torque=torque)
    hands.looks("pump_body", "marked", by="builder")
    hands.book.eye_check("pump_on_crank.no_drag_point", "two turns, body tight")
    hands.photographs("pump.on")
    hands.does("pump.on")


def _pickup_and_seal(hands: Assembling) -> None:
    hands.book.at("2025-02-26 11:30")
    hands.uses("locker_medium", "pickup.on", mixed_at="11:28", applied_at="11:30", **LOCKER)
    hands.tightens("pickup", "1 2", wrench="X1", torque="9.5")
    hands.tightens(
        "pickup", "3", wrench="X1", torque="8", note="The brace, by permit P-1.", kept=("beside:",)
    )
    hands.looks("pickup", "marked", by="builder")
    hands.photographs("pickup.on")
    hands.does("pickup.on")
    hands.book.at("2025-02-26 13:20")
    hands.uses("sealant", "rear_seal.in", mixed_at="13:18", applied_at="13:21", **SEALANT)
    hands.does("rear_seal.in", "Carrier centred on the crank to 0.03 each way, then tightened.")
