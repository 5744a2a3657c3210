import pytest

from tests.support.bench import trial_shop
from tests.support.guarded_shop import GuardedShop


@pytest.fixture
def shop(tmp_path):
    """The trial shop, open."""
    opened = trial_shop(tmp_path / "shop")
    yield opened
    opened.close()


@pytest.fixture
def bench(shop):
    return shop.bench("trial")


@pytest.fixture
def assembly(tmp_path):
    """The small engine with its order of work, in a shop of one person."""
    made = GuardedShop(tmp_path / "assembly")
    yield made
    made.wired.close()
