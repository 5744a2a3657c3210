"""The Corrie Five's record with a few entries more: what each un-proves, and what brings it back."""

from __future__ import annotations

import pytest

from tests.support.story import Story


@pytest.fixture
def corrie():
    """The Corrie Five as it stands after its record."""
    return Story.of("corrie-five")


@pytest.fixture
def brackengill():
    """The Brackengill Eleven as it stands after its record."""
    return Story.of("brackengill-eleven")
