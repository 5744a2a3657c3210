"""What a text at a place means."""

import pytest

from fitwright.bench.errors import UnknownBladeError
from fitwright.bench.short_entries import BladeTyped, at_place, read_entry
from fitwright.bench.taking import blade_name, typed
from fitwright.records import kinds
from fitwright.units import QuantityError, parse_quantity


def at(bench, dimension="pump.width", instrument="M1", setting=None):
    found = bench.dimension(dimension)
    held = bench.shop.instruments.get(instrument or "")
    return at_place(bench, found, found.places[0], instrument=held.body if held else None, setting=setting)


def test_the_place_shows_its_last_digits_blank(bench):
    assert at(bench).pattern == "5.6__"
    assert at(bench, "pump.cover_gap", "T1").pattern is None, "no nominal, nothing to leave blank"


@pytest.mark.parametrize(
    "text, size, in_full",
    [
        ("5.612", 5.612, True),
        ("5,612", 5.612, True),
        ("0.22094 in", 5.611876, True),
        ("12", 5.612, False),
        ("98", 5.598, False),
        ("+12", 5.612, False),
        ("-3", 5.597, False),
        ("\u22123", 5.597, False),
    ],
)
def test_values(bench, text, size, in_full):
    found = read_entry(text, at(bench))
    assert found.quantity.si * 1000 == pytest.approx(size, rel=1e-12)
    assert found.in_full is in_full
    again = parse_quantity(found.quantity.typed, default_unit="mm")
    assert again.si == found.quantity.si, "the text kept says all that is needed"


def test_a_deviation_counts_from_the_size_that_the_gauge_was_set_to(shop):
    size = typed(parse_quantity("5.580 mm"))
    shop.write([shop.entry(kinds.Setting(code="Z1", instrument="M1", size=size))])
    place = at(shop.bench("trial"))
    assert place.setting.code == "Z1"
    assert read_entry("+12", place).quantity.typed == "5.580 mm [+12 x 0.001 mm]"


def test_a_setting_made_at_quite_another_size_is_not_taken_by_itself(shop):
    size = typed(parse_quantity("25.000 mm"))
    shop.write([shop.entry(kinds.Setting(code="Z1", instrument="M1", size=size))])
    bench = shop.bench("trial")
    assert at(bench).setting is None
    assert at(bench, setting="Z1").setting.code == "Z1"


@pytest.mark.parametrize(
    "text, blades, answer",
    [
        ("F2:0.06 goes", "F2:0.06", "goes"),
        ("0.06 g", "0.06", "goes"),
        ("0.07 n", "0.07", "does not go"),
        ("0.05 d", "0.05", "drags"),
        ("0.05 f", "0.05", "goes freely"),
        ("F2:0.06+F2:0.03 does not go", "F2:0.06+F2:0.03", "does not go"),
    ],
)
def test_blades(bench, text, blades, answer):
    assert read_entry(text, at(bench, "pump.shaft_gap", None)) == BladeTyped(blades, answer)


def test_a_blade_is_found_by_its_marking_where_one_set_has_it(shop):
    bench = shop.bench("trial")
    assert blade_name(bench, "0.06") == blade_name(bench, "0,06") == "F2:0.06"
    other = kinds.BladeSet(
        code="F1",
        title="Workshop set",
        blades=(kinds.BladeOnShelf(marking="0.06", thickness=6e-5, standard_uncertainty=3e-6),),
    )
    shop.write([shop.entry(other)])
    with pytest.raises(UnknownBladeError, match=r"F2:0\.06, F1:0\.06"):
        blade_name(bench, "0.06")
    assert blade_name(bench, "0.06", ("F1",)) == "F1:0.06"


@pytest.mark.parametrize("text", ["", "goes", "two", "5.6 bar", "1,234.5"])
def test_what_is_neither_is_refused_in_one_sentence(bench, text):
    with pytest.raises(QuantityError) as refused:
        read_entry(text, at(bench))
    assert "\n" not in str(refused.value)


@pytest.fixture
def bore_gauges(shop):
    """Two bore gauges at a size of 5.6 mm, set: one divided in inches, one in millimetres."""
    for code, unit, division, size in (("B1", "in", 2.54e-6, "0.22 in"), ("B2", "mm", 1e-6, "5.580 mm")):
        gauge = kinds.Instrument(
            code=code,
            type="bore gauge",
            title=code,
            unit=unit,
            resolution=division,
            repeatability=division / 2.0,
            comparison=True,
        )
        held = kinds.Setting(code=f"{code}-1", instrument=code, size=typed(parse_quantity(size)))
        shop.write([shop.entry(gauge)])
        shop.write([shop.entry(held)])
    return shop.bench("trial")


@pytest.mark.parametrize(
    "gauge, text, unit, size",
    [
        ("B1", "+12", "", "0.2212 in"),
        ("B1", "+.0012", "", "0.2212 in"),
        ("B1", "-0,0012", "", "0.2188 in"),
        ("B1", "+1.2 thou", "", "0.2212 in"),
        ("B1", "+1.2", "thou", "0.2212 in"),
        ("B1", "221.2", "thou", "0.2212 in"),
        ("B1", "+0.012", "mm", "5.6 mm"),
        ("B2", "+0.012", "", "5.592 mm"),
        ("B2", "+2.5", "", "5.5825 mm"),
    ],
)
def test_a_deviation_with_decimals_is_an_amount_where_it_can_be_no_count(
    bore_gauges, gauge, text, unit, size
):
    found = read_entry(text, at(bore_gauges, instrument=gauge), unit=unit)
    assert found.quantity.si == pytest.approx(parse_quantity(size).si, rel=1e-9)
    again = parse_quantity(found.quantity.typed, default_unit=found.quantity.unit)
    assert again.si == found.quantity.si, "the text kept says all that is needed"


@pytest.mark.parametrize(
    "gauge, text, ways",
    [
        ("B1", "+2.5", '"+0.00025 in" or "+2.5 thou"'),
        ("B1", "-.5", '"-0.00005 in" or "-.5 thou"'),
        ("B2", "+0.5", '"+0.0005 mm" or "+0.5 mm"'),
    ],
)
def test_a_deviation_that_could_be_a_count_or_an_amount_is_asked_back(bore_gauges, gauge, text, ways):
    with pytest.raises(QuantityError) as refused:
        read_entry(text, at(bore_gauges, instrument=gauge))
    assert str(refused.value).endswith(f"; write {ways}")
    assert "\n" not in str(refused.value)
