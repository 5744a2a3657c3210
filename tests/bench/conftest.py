import pytest

from tests.support.bench import trial_shop


@pytest.fixture
def shop(tmp_path):
    """The trial shop, open."""
    opened = trial_shop(tmp_path / "shop")
    yield opened
    opened.close()


@pytest.fixture
def bench(shop):
    return shop.bench("trial")
