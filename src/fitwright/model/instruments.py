"""Kinds of instrument, in the words of the trade."""

from __future__ import annotations

from typing import Final

INSTRUMENT_KINDS: Final = (
    "outside micrometer",
    "inside micrometer",
    "three-point inside micrometer",
    "ball micrometer",
    "depth micrometer",
    "bore gauge",
    "telescopic gauge",
    "caliper",
    "height gauge",
    "dial indicator",
    "test indicator",
    "feeler blades",
    "plug gauge",
    "plastic thread gauge",
    "straight-edge",
    "rule",
    "burette",
    "scales",
    "spring tester",
    "spring balance",
    "torque wrench",
    "torque gauge",
    "angle gauge",
    "degree wheel",
    "stretch gauge",
    "pressure gauge",
    "flow meter",
    "temperature probe",
    "leak-down tester",
)
"""What a dimension may name as the instrument to take it with."""

SIZE_GAUGES: Final = frozenset(
    {
        "outside micrometer",
        "inside micrometer",
        "three-point inside micrometer",
        "ball micrometer",
        "depth micrometer",
        "bore gauge",
        "telescopic gauge",
        "caliper",
        "height gauge",
    }
)
"""Those that take the size of a part: what they read is no gap that a feeler blade could go into."""
