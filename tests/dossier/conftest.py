"""A small shop with two customers, and the dossiers of one of them."""

from __future__ import annotations

import pytest

from tests.support.dossiers import OWN, small_shop


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """Two customers' builds to the small sheet; nobody writes to it."""
    found = small_shop(tmp_path_factory.mktemp("dossiers") / "shop")
    yield found
    found.close()


@pytest.fixture
def own_shop(tmp_path):
    """The same, for a test that writes."""
    found = small_shop(tmp_path / "shop")
    yield found
    found.close()


@pytest.fixture(scope="module")
def complete(shop):
    """The complete dossier, a draft."""
    return shop.dossier(OWN, "complete")


@pytest.fixture(scope="module")
def owner(shop):
    """The owner's copy, a draft."""
    return shop.dossier(OWN, "owner")
