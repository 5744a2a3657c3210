"""Measuring at Hollin Bank Restorations: room and parts at 64 degrees Fahrenheit."""

from __future__ import annotations

from tools.examples.amounts import si
from tools.examples.bench import Bench

BENCH = Bench(
    measured_by="restorer",
    typed_by="improver",
    room="64 degF",
    zero_uncertainty=si("0.03 thou"),
    no_zero="+.0000 in",
)

sit = BENCH.sit
zero = BENCH.zero
