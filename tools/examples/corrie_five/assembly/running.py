"""Filled, primed, cranked, started; the head once more, cold; and pulled under load."""

from __future__ import annotations

from fitwright.bench.first_start import PressureTyped
from tools.examples.assembling import Assembling
from tools.examples.corrie_five.assembly.bottom_end import OIL
from tools.examples.corrie_five.bench import sit
from tools.examples.corrie_five.top_end import LASH, try_lash

FIRST_RUN = (
    ("fire, hold", "1500", "20", "5.1"),
    ("warm", "1500", "45", "5.1"),
    ("warm", "2000", "65", "5.0"),
    ("bed-in", "2500", "80", "5.1"),
    ("check idle", "900", "90", "2.7"),
    ("check", "2000", "95", "5.0"),
    ("bed-in load", "3000", "100", "5.1"),
)
"""What was done, speed [rev/min], oil [degC], gauge [bar]; the gauge stood at zero vented."""

PULLS = (
    ("ref", "2000", "110", "4.8"),
    ("pull", "4000", "110", "5.1"),
    ("pull", "6000", "112", "5.3"),
    ("pull", "8000", "120", "5.5"),
)
"""The same, by the gauge that shows 0.2 bar too little."""

ZERO = "-0.2"

SHIMMED = {("inlet", 3): (20, 20), ("exhaust", 2): (30, 30)}
"""Valves whose lash is another one since their shims were changed."""


def build(hands: Assembling) -> None:
    """From the first oil to the last pull."""
    _filled(hands)
    _started(hands)
    _after_heat(hands)
    _pulled(hands)


def _filled(hands: Assembling) -> None:
    book = hands.book
    book.at("2025-03-03 08:30")
    hands.uses("engine_oil", "filled", **OIL)
    hands.photographs("filled")
    hands.does("filled", "5.6 litres and the filter's half.")
    book.at("2025-03-03 10:00")
    book.eye_check("camshafts.oil_seen", "all twelve, after 40 seconds")
    hands.does("primed", "At 3 bar, crank turned twice by quarters.", by="apprentice")
    hands.releases("primed", "builder")
    book.at("2025-03-03 10:40")
    _reads(hands, ("cranked, plugs out", "250", "18", "2.8"), zero="0.0", seconds="9")
    hands.does("cranked")
    book.at("2025-03-03 13:00")
    hands.does("first_start.ready", "Foreman calls stop; stop values on the card at the gauge.")
    hands.releases("first_start.ready", "foreman")


def _started(hands: Assembling) -> None:
    book = hands.book
    book.at("2025-03-03 13:30")
    hands.invites("first_start.run", "was present")
    for read in FIRST_RUN:
        _reads(hands, read, zero="0.0")
        book.wait(5)
    without = _reads(hands, ("ref idle", "900", "110", "2.2"))
    hands.reads_pressure(
        _typed(("ref idle", "900", "110", "2.2"), zero=ZERO),
        supersedes=without,
        reason="0.25 under what was expected: gauge vented, its needle stands 0.2 below the pin",
    )
    hands.does("first_start.run")


def _reads(hands: Assembling, read: tuple[str, str, str, str], **more: str) -> str:
    return hands.reads_pressure(_typed(read, **more))


def _typed(read: tuple[str, str, str, str], **more: str) -> PressureTyped:
    step, speed, temperature, gauge = read
    return PressureTyped(
        step=step, speed=speed, temperature=temperature, gauge=gauge, instrument="P1", **more
    )


def _after_heat(hands: Assembling) -> None:
    book = hands.book
    book.at("2025-03-04 08:00")
    hands.heats("First run, 40 minutes to 110 degC oil, then cooled overnight to 19 degC.")
    hands.tightens("head_nuts", wrench="X3", torque="75")
    hands.looks("head_nuts", "marked", by="builder")
    hands.looks("head_nuts", "checked", by="apprentice")
    sit(book, "T-36", "Lash again, cold, after the first run", {"feeler blades": "F3"}, attitude="deck up")
    for side, cylinders in LASH.items():
        for cylinder, pair in cylinders.items():
            for letter, hundredths in zip("ab", SHIMMED.get((side, cylinder), pair), strict=True):
                try_lash(book, f"valve.{cylinder}.{side}.{letter}.cam_gap", hundredths)
    book.person = "builder"
    hands.photographs("after_heat")
    hands.does("after_heat")


def _pulled(hands: Assembling) -> None:
    hands.book.at("2025-03-05 09:00")
    for read in PULLS:
        _reads(hands, read, zero=ZERO)
        hands.book.wait(10)
    hands.does("pulled", "In steps, oil and water watched by the apprentice.")
    hands.book.note("Gauge P1 shows 0.2 bar too little since the first run: have it calibrated anew.")
