"""The oil that a build is filled with: of the sheet, by a data sheet, by its grade; the latest counts."""

from dataclasses import replace

import pytest

from fitwright.assess.oil.filling import filling_of
from fitwright.bench.context import Bench
from fitwright.bench.entry_words import said
from fitwright.bench.errors import BenchError
from fitwright.bench.oil_choice import (
    GRADE_ONLY,
    NO_SOURCE,
    OilTaken,
    OilTyped,
    choose_oil,
    grade_from,
)
from fitwright.bench.withdrawing import withdrawal
from fitwright.bench.work_taking import EntryTaking
from fitwright.model.amount import Written
from fitwright.model.oil import Oil, OilBasis
from fitwright.model.slips import Question

SHEET = OilTyped(
    title="Running-in oil",
    kinematic_viscosity_40="98",
    kinematic_viscosity_100="10.9",
    high_shear_viscosity_150="3.4 cP",
    density_15="0.868 g/mL",
    source="data sheet of 2031",
)
OILS = {
    "street": Oil(id="street", title="Street oil", grade="10W-40", planned=True),
    "thin": Oil(id="thin", title="Thin oil", measured_viscosity=Written("60 mm2/s", 6e-5, "mm2/s")),
}


@pytest.fixture
def on(shop):
    """The bench as it is now, with a sheet that has oils."""

    def now(oils=OILS):
        bench = shop.bench("trial")
        return Bench(replace(bench.sheet, oils=oils), bench.shop, bench.build)

    return now


def fill(shop, bench, chosen, **taking):
    taken = choose_oil(bench, chosen, EntryTaking(**taking))
    assert isinstance(taken, OilTaken), taken
    shop.write(taken.entries)
    return taken


def filling(bench):
    return filling_of(bench.sheet, bench.build)


def test_without_a_choice_it_is_the_planned_oil(on):
    assert filling(on()).oil is OILS["street"]
    assert filling(on()).chosen is None
    none = filling(on(oils={}))
    assert (none.oil, none.problem) == (None, "no oil is known: choose one")
    two = {name: replace(oil, planned=False) for name, oil in OILS.items()}
    assert "several oils and none is planned" in filling(on(oils=two)).problem


def test_the_latest_choice_counts_and_a_withdrawn_one_does_not(shop, on):
    fill(shop, on(), OilTyped(oil="thin"))
    assert filling(on()).oil is OILS["thin"]
    last = fill(shop, on(), OilTyped(grade="30"), reason="what was on the shelf")
    assert (filling(on()).oil.title, filling(on()).oil.basis) == ("SAE 30", OilBasis.GRADE)
    assert filling(on()).chosen.entry.id == last.entries[0].id
    assert said(last.body, on()) == "filled with SAE 30 (grade only): what was on the shelf"
    shop.write([withdrawal(on(), last.entries[0].id, reason="undo")])
    assert filling(on()).oil is OILS["thin"]


def test_a_data_sheet_is_an_oil_as_the_sheet_describes_one(shop, on):
    taken = fill(shop, on(), SHEET, person="builder")
    assert taken.cautions == ()
    assert taken.words == "filled with Running-in oil (data sheet: data sheet of 2031)"
    oil = filling(on()).oil
    assert (oil.title, oil.basis, oil.source) == ("Running-in oil", OilBasis.DATA_SHEET, "data sheet of 2031")
    assert oil.kinematic_viscosity_40.si == pytest.approx(98e-6)
    assert oil.kinematic_viscosity_100.si == pytest.approx(10.9e-6)
    assert oil.high_shear_viscosity_150.si == pytest.approx(3.4e-3)
    assert oil.density_15.si == pytest.approx(868.0)
    assert shop.verify().sound


def test_what_a_choice_does_not_say_is_a_caution(shop, on):
    assert fill(shop, on(), OilTyped(grade="10W-40")).cautions == (GRADE_ONLY,)
    assert fill(shop, on(), replace(SHEET, source="")).cautions == (NO_SOURCE,)
    assert fill(shop, on(), OilTyped(oil="thin")).cautions == ()


def test_an_oil_that_the_sheet_lost_is_said_so(shop, on):
    taken = fill(shop, on(), OilTyped(oil="thin"))
    found = filling(on(oils={"street": OILS["street"]}))
    assert found.oil is None
    assert found.problem == "the sheet has no oil thin any more: choose one"
    assert "which the sheet does not have" in said(taken.body, on(oils={}))


def test_a_density_without_its_unit_is_asked_about(on):
    light = replace(SHEET, density_15="0.868")
    question = choose_oil(on(), light, EntryTaking())
    assert isinstance(question, Question)
    assert "0.868 g/cm³" in [each.label for each in question.guesses]
    taken = choose_oil(on(), light, EntryTaking(answers={question.key: "0.868 g/cm³"}))
    assert taken.body.data_sheet.density_15.si == pytest.approx(868.0)
    assert taken.entries[1].body["entry"] == taken.entries[0].id


@pytest.mark.parametrize("text", ["1090", "1.09"])
def test_a_viscosity_by_a_digit_off_is_asked_about(on, text):
    question = choose_oil(on(), replace(SHEET, kinematic_viscosity_100=text), EntryTaking())
    assert question.text.startswith("Kinematic viscosity at 100 °C: ")


@pytest.mark.parametrize(
    "text, grade",
    [("10W-40", "10W-40"), ("sae 10w40", "10W-40"), ("0w 20", "0W-20"), ("SAE30", "30"), ("5W", "5W")],
)
def test_a_grade_is_written_one_way(text, grade):
    assert grade_from(text) == grade


@pytest.mark.parametrize("text", ["thick", "10W-40-50", "SAE", "W40", "100", "10W-45", "7W-40"])
def test_what_is_no_grade_is_refused(text):
    with pytest.raises(BenchError, match="is no grade"):
        grade_from(text)


@pytest.mark.parametrize(
    "chosen, words",
    [
        (OilTyped(), "No oil was named"),
        (OilTyped(oil="street", grade="30"), "More than one oil was named"),
        (replace(SHEET, grade="30"), "More than one oil was named"),
        (OilTyped(oil="steet"), 'No oil of the sheet "steet"; name one of: street'),
        (replace(SHEET, title=""), "The oil has no name"),
        (replace(SHEET, kinematic_viscosity_100=""), "Kinematic viscosity at 100 °C is missing"),
        (
            replace(SHEET, kinematic_viscosity_40="10.9", kinematic_viscosity_100="11.5"),
            "11.5 at 100 °C is not less than 10.9 at 40 °C",
        ),
    ],
)
def test_what_cannot_be_chosen_is_said_in_a_sentence(on, chosen, words):
    with pytest.raises(BenchError, match=words):
        choose_oil(on(), chosen, EntryTaking())


def test_a_choice_is_corrected_with_its_reason(shop, on):
    wrong = fill(shop, on(), OilTyped(grade="30")).entries[0].id
    with pytest.raises(BenchError, match="needs its reason"):
        choose_oil(on(), OilTyped(grade="40"), EntryTaking(supersedes=wrong))
    with pytest.raises(BenchError, match="No choice of oil"):
        choose_oil(on(), OilTyped(grade="40"), EntryTaking(supersedes="b" * 32, reason="why"))
    fill(shop, on(), OilTyped(oil="thin"))
    fill(shop, on(), OilTyped(grade="40"), supersedes=wrong, reason="mistyped")
    assert filling(on()).oil is OILS["thin"], "a correction stands where stood what it corrects"
