"""Things of the shop made of plain texts; usual figures can all be entered."""

import pytest

from fitwright.bench.blade_sets import blade_set_from, marked_thickness, markings_in, measured_blade
from fitwright.bench.errors import BenchError
from fitwright.bench.shelf import instrument_from, next_code, person_from, typical_uncertainty
from fitwright.data.usual_gauges import usual_blade_sets, usual_instrument
from fitwright.model.instruments import INSTRUMENT_KINDS
from fitwright.model.slips import Question


@pytest.mark.parametrize("family", ["mm", "inch"])
@pytest.mark.parametrize("kind", [kind for kind in INSTRUMENT_KINDS if usual_instrument(kind)])
def test_the_usual_figures_of_every_kind_can_be_entered(kind, family):
    usual = usual_instrument(kind, family)
    body = instrument_from(
        "X1",
        kind,
        type_=kind,
        unit=usual.unit,
        resolution=usual.resolution,
        repeatability=usual.repeatability,
        uncertainty=usual.uncertainty,
        transfer=usual.transfer or None,
        zero_limit=usual.zero_limit or None,
        comparison=usual.comparison,
        typical=True,
    )
    assert body.comparison is bool(usual.transfer)
    assert body.resolution > 0
    assert typical_uncertainty(body) >= 0


@pytest.mark.parametrize("name", list(usual_blade_sets()))
def test_every_usual_list_of_blades_can_be_entered(name):
    usual = usual_blade_sets()[name]
    body = blade_set_from("F1", usual.title, usual.blades, unit=usual.unit)
    assert len(body.blades) == len(usual.blades)
    assert {marked_thickness(blade)[1] for blade in body.blades} == {usual.unit}
    thicknesses = [blade.thickness for blade in body.blades]
    assert thicknesses == sorted(thicknesses)


def test_a_gauge_never_calibrated_counts_with_its_own_figure_or_what_is_usual():
    gauge = instrument_from("M1", "M", type_="outside micrometer", resolution="0.001")
    assert typical_uncertainty(gauge) == pytest.approx(1e-6)
    gauge = instrument_from("M1", "M", type_="outside micrometer", resolution="0.001", uncertainty="0.002")
    assert typical_uncertainty(gauge) == pytest.approx(2e-6)
    assert typical_uncertainty(instrument_from("L", "L", type_="leak-down tester", resolution="1")) == 0.0


@pytest.mark.parametrize(
    "letter, taken, digits, code",
    [
        ("M", [], 0, "M1"),
        ("M", ["M1", "M9", "MX", "N20"], 0, "M10"),
        ("S-", ["S-041", "S-7b"], 3, "S-042"),
    ],
)
def test_the_next_code_follows_the_highest(letter, taken, digits, code):
    assert next_code(letter, taken, digits) == code


def test_a_person_without_a_code_is_given_one():
    assert person_from("Second builder, nights").code == "second-builder-nights"
    with pytest.raises(BenchError, match="Nobody is named"):
        person_from("  ")


@pytest.mark.parametrize(
    "text, found",
    [
        ("0.05 0.10=0.1012\n0.15", ("0.05", "0.10=0.1012", "0.15")),
        ("0.05, 0.10; 0.15", ("0.05", "0.10", "0.15")),
        ("0,05 0,10", ("0,05", "0,10")),
        ("", ()),
    ],
)
def test_markings_stand_between_spaces(text, found):
    assert markings_in(text) == found


def test_a_measured_blade_near_its_marking_is_taken_and_one_far_off_is_asked():
    body = blade_set_from("F1", "Set", ["0.05", "0.10"], missing=["0.05"])
    changed, answered = measured_blade(body, "0.05", "0.0512")
    assert answered == ()
    blade = changed.blades[0]
    assert (blade.measured, blade.available) == (True, True)
    assert blade.thickness == pytest.approx(51.2e-6)
    assert isinstance(measured_blade(body, "0.05", "0.2"), Question)
    with pytest.raises(BenchError, match="name one of: 0"):
        measured_blade(body, "0.06", "0.06")
    with pytest.raises(BenchError, match="name one of: 0"):
        blade_set_from("F1", "Set", ["0.05"], missing=["0.06"])
