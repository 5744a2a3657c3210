"""Fits of the demo build brought outside their limits, by readings that nobody would like."""

from __future__ import annotations

from fitwright.bench.decisions import withdrawal_of
from fitwright.bench.taking import Taken, Taking, take_value
from fitwright.records.kinds import ValueObservation
from fitwright.wiring import Shop

CODE = "corrie-five"
TOO_SMALL, TOO_LARGE = -4e-5, 3e-5
"""By how much a journal is read otherwise than it is [m]."""


def read_otherwise(shop: Shop, dimension: str, by: float) -> None:
    """Every place of a size read anew, larger by so much; what was read before is withdrawn."""
    before = [each for each in shop.bench(CODE).build.readings_of(dimension) if each.effective]
    for record in before:
        observation = record.body.observation
        assert isinstance(observation, ValueObservation)
        gone = withdrawal_of(record.entry.id, "read anew")
        shop.write([shop.entry(gone, build=CODE, person="builder")])
        typed = f"{(observation.value.si + by) * 1e3:.4f} mm"
        taking = Taking(instrument=observation.instrument, person="builder")
        taken = take_value(shop.bench(CODE), dimension, record.place, typed, taking)
        assert isinstance(taken, Taken), taken
        shop.write(taken.entries)


def bring_outside(shop: Shop) -> None:
    """Main 4 too loose, main 2 too tight."""
    read_otherwise(shop, "main.4.journal", TOO_SMALL)
    read_otherwise(shop, "main.2.journal", TOO_LARGE)
