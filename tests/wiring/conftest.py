import pytest

from tests.support.guarded_shop import GuardedShop


@pytest.fixture
def lone(tmp_path):
    """The small engine in a shop of one person."""
    made = GuardedShop(tmp_path / "lone")
    yield made
    made.wired.close()


@pytest.fixture
def two(tmp_path):
    """The small engine in a shop of two people who have set their PINs."""
    made = GuardedShop(tmp_path / "two", people=2)
    made.set_pins()
    yield made
    made.wired.close()
