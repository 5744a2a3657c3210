from __future__ import annotations

from pathlib import Path

import pytest

SHEETS = Path(__file__).resolve().parents[1] / "data" / "sheets"


@pytest.fixture(scope="session")
def small_text() -> str:
    """The small complete sheet."""
    return (SHEETS / "small.toml").read_text(encoding="utf-8")
