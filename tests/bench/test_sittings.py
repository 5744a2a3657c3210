"""Sittings begun from typed texts, and changed by one thing into new ones."""

from dataclasses import replace

import pytest

from fitwright.bench.errors import (
    TemperatureUnitError,
    UnknownNameError,
    UnknownPersonError,
    WrongSettingError,
)
from fitwright.bench.sittings import begin_sitting, changed_sitting, new_sitting_code, sitting_from
from fitwright.records import kinds
from fitwright.units import QuantityError


@pytest.fixture
def bench(shop):
    shop.write(
        [
            shop.entry(kinds.Person(code="apprentice", name="Apprentice")),
            shop.entry(kinds.Setting(code="S-1", instrument="D1")),
        ]
    )
    return shop.bench("trial")


def test_a_sitting_from_typed_texts(bench):
    made = sitting_from(
        bench,
        measured_by="Builder",
        temperature="69.8 degF",
        part_temperatures={"pump": "25"},
        instruments={"dial indicator": "D1"},
        settings={"D1": "S-1"},
        attitude="",
    )
    assert (made.code, made.measured_by, made.attitude) == ("T-02", "builder", None)
    assert made.temperature == pytest.approx(294.15)
    assert made.part_temperatures["pump"] == pytest.approx(298.15)


def test_one_thing_changed_is_a_new_sitting(bench, shop):
    first = sitting_from(bench, measured_by="builder", instruments={"dial indicator": "D1"}, crank="at rest")
    shop.write([begin_sitting(bench, first)])
    warmer = changed_sitting(shop.bench("trial"), first.code, temperature="22")
    assert (first.code, warmer.code) == ("T-02", "T-03")
    assert warmer.temperature == pytest.approx(295.15)
    kept = first.model_dump() | {"code": "T-03", "temperature": warmer.temperature}
    assert warmer.model_dump() == kept


def test_mappings_change_by_name_and_an_empty_text_takes_out(bench):
    first = sitting_from(
        bench,
        measured_by="builder",
        typed_by="apprentice",
        instruments={"dial indicator": "D1", "outside micrometer": "M1"},
        part_temperatures={"pump": "25"},
        crank="at rest",
    )
    changed = changed_sitting(
        bench,
        first,
        typed_by="",
        instruments={"outside micrometer": ""},
        settings={"D1": "S-1"},
        part_temperatures={"pump": ""},
        crank="",
        words="after dinner",
    )
    assert changed.instruments == {"dial indicator": "D1"}
    assert changed.settings == {"D1": "S-1"}
    assert (changed.part_temperatures, changed.crank, changed.typed_by) == ({}, None, None)
    assert changed.words == "after dinner"


def test_a_correction_is_no_part_of_the_copy(bench):
    before = kinds.Sitting(code="S1", measured_by="builder", supersedes="0" * 32, reason="slip")
    changed = changed_sitting(bench, before, temperature_uncertainty="1", difference_uncertainty="0.5 K")
    assert (changed.supersedes, changed.reason) == (None, None)
    assert (changed.temperature_uncertainty, changed.part_gauge_difference_uncertainty) == (1.0, 0.5)


@pytest.mark.parametrize(
    "change, error, says",
    [
        ({"measured_by": "nobody"}, UnknownPersonError, 'Nobody is called "nobody"'),
        ({"instruments": {"dial indicator": "D9"}}, UnknownNameError, 'No instrument "D9"'),
        ({"settings": {"D1": "S-9"}}, UnknownNameError, 'No setting "S-9"'),
        ({"settings": {"D9": "S-1"}}, UnknownNameError, 'No instrument "D9"'),
        ({"settings": {"M1": "S-1"}}, WrongSettingError, "Setting S-1 is of D1, not of M1"),
        ({"part_temperatures": {"sump": "20"}}, UnknownNameError, 'No position "sump"'),
        ({"temperature": "20 mm"}, QuantityError, "20 mm"),
    ],
)
def test_what_is_not_there_is_refused(bench, change, error, says):
    with pytest.raises(error, match=says.replace(".", r"\.")):
        changed_sitting(bench, "S1", **change)
    with pytest.raises(error):
        sitting_from(bench, **({"measured_by": "builder"} | change))


def test_an_unknown_sitting_is_refused(bench):
    with pytest.raises(UnknownNameError, match='No sitting "T-99"'):
        changed_sitting(bench, "T-99", temperature="20")


def test_two_sittings_do_not_share_a_code(bench, shop):
    shop.write([begin_sitting(bench, kinds.Sitting(code="T-02", measured_by="builder"), entry_id="a" * 32)])
    assert new_sitting_code(shop.bench("trial")) == "T-03"


@pytest.fixture
def inch_bench(bench):
    engine = replace(bench.sheet.engine, unit_family="inch")
    return replace(bench, sheet=replace(bench.sheet, engine=engine))


def test_a_temperature_without_a_unit_is_in_that_of_the_build(bench, inch_bench):
    warm = {"temperature": "64", "part_temperatures": {"pump": "70"}}
    made = sitting_from(inch_bench, measured_by="builder", **warm)
    assert made.temperature == pytest.approx(290.928, abs=1e-3)
    assert made.part_temperatures["pump"] == pytest.approx(294.261, abs=1e-3)
    assert sitting_from(bench, measured_by="builder", temperature="22").temperature == pytest.approx(295.15)
    assert changed_sitting(inch_bench, made, temperature="68").temperature == pytest.approx(293.15)


@pytest.mark.parametrize("text", ["64", "-3", "110"])
def test_a_temperature_that_may_be_in_the_other_unit_has_to_say_its_unit(bench, text):
    with pytest.raises(TemperatureUnitError, match=f'say its unit: "{text} degC" or "{text} degF"'):
        sitting_from(bench, measured_by="builder", temperature=text)
    said = sitting_from(bench, measured_by="builder", temperature=f"{text} degC")
    assert said.temperature == pytest.approx(273.15 + float(text)), "with its unit it is taken"


def test_a_shop_temperature_in_the_wrong_unit_is_asked_back_in_an_inch_build(inch_bench):
    with pytest.raises(TemperatureUnitError, match="20 degF, where hardly anybody measures"):
        sitting_from(inch_bench, measured_by="builder", part_temperatures={"pump": "20"})
