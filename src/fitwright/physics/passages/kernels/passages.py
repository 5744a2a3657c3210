"""All compiled laws of passages by one name: what a circuit calls."""

from __future__ import annotations

from fitwright.physics.passages.kernels.gaps import annulus, end_gap, slot
from fitwright.physics.passages.kernels.orifice import orifice
from fitwright.physics.passages.kernels.pipe import pipe, pipe_drop

__all__ = ["annulus", "end_gap", "orifice", "pipe", "pipe_drop", "slot"]
