"""Tables of numbers that others computed or published, as CSV files in tests/data."""

from __future__ import annotations

import csv
from pathlib import Path

DATA = Path(__file__).resolve().parents[1] / "data"


def rows(name: str) -> list[dict[str, str]]:
    """Rows of a table below tests/data; lines that begin with # say where it comes from."""
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def columns(name: str, *wanted: str) -> list[list[float]]:
    """Columns of numbers of a table, in the order asked for."""
    return [[float(row[column]) for row in rows(name)] for column in wanted]
