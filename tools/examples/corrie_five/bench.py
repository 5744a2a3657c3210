"""Measuring at the Tarnside Engine Room: room and parts at 20.5 degrees."""

from __future__ import annotations

from tools.examples.bench import Bench

BENCH = Bench(
    measured_by="builder",
    typed_by="apprentice",
    room="20.5 degC",
    zero_uncertainty=0.5e-6,
    no_zero="+0.000 mm",
)

M3_ZERO = "+0.002 mm"
"""What M3 shows too much on its 50 mm rod; it is taken off, and added when a gauge is set in it."""

sit = BENCH.sit
zero = BENCH.zero
