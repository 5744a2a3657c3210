"""The forms that the plays fill in, looked at closer: what is typed is echoed, and forgotten once kept."""

import pytest

from tests.plays.bench_day import gauges, shelf
from tests.plays.entering import Entering
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with

EXAMPLE = "corrie-five"
NEW = "/shop/settings?gauge=M3"


@pytest.fixture(scope="module")
def person(browser, tmp_path_factory):
    with (
        shop_with(tmp_path_factory.mktemp("forms"), shelf(EXAMPLE)) as served,
        person_at(browser, served.address, "none") as person,
    ):
        yield person


def test_a_number_is_echoed_in_both_units_while_it_is_typed(person):
    person.opens(NEW)
    person.page.locator("#form-setting [name=zero]").press_sequentially("+0.002")
    person.page.locator("#setting-zero-echo", has_text="thou").wait_for()


def test_what_was_typed_outlives_a_reload_and_goes_once_it_is_kept(person):
    person.opens(NEW)
    zero = person.page.locator("#form-setting [name=zero]")
    zero.fill("+0.002 mm")
    person.page.reload()
    assert zero.input_value() == "+0.002 mm"
    setting = {"instrument": "M3", "code": "S-1", "against": "50 mm rod", "standard_uncertainty": 5e-7}
    Entering(person, "builder", gauges(EXAMPLE, "unit")).setting(setting)
    person.opens(NEW)
    assert zero.input_value() == ""
