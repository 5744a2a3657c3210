"""Numbers by which the kernels know the kinds of element."""

from __future__ import annotations

PIPE = 0
ORIFICE = 1
FILTER = 2
COOLER = 3
JET = 4
BEARING = 5
CRANK_DRILLING = 6
ANNULAR_LEAK = 7
SLOT_LEAK = 8
CHAIN_TENSIONER = 9
PUMP = 10
RELIEF_VALVE = 11
LAMINAR_RESISTANCE = 12
