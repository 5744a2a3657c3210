"""A record in a fresh folder, with a clock that a test can set."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from fitwright.store.record import open_record


class SetClock:
    """A clock that moves on by a millisecond each time it is asked."""

    def __init__(self):
        self.now = datetime(2031, 5, 4, 9, 30, tzinfo=UTC)

    def __call__(self):
        self.now += timedelta(milliseconds=1)
        return self.now


@pytest.fixture
def clock():
    return SetClock()


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "shop"


@pytest.fixture
def opened(folder, clock):
    """Opens the record of this test, as often as it is asked, and closes them all at the end."""
    records = []

    def opener(directory=folder, **options):
        records.append(open_record(directory, clock=clock, **options))
        return records[-1]

    yield opener
    for record in records:
        record.close()


@pytest.fixture
def record(opened):
    return opened()
