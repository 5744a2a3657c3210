"""Laws of starter sheets over answers drawn at random."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.formats.sheet.reader import check_sheet, read_sheet
from fitwright.model.sheet import Sheet
from fitwright.starter.answers import WORDS, Answers
from fitwright.starter.errors import AnswerError
from fitwright.starter.sheet import write_sheet

CYLINDERS = {
    "single": [1],
    "twin": [2],
    "inline": [2, 3, 4, 5, 6, 8],
    "vee": [2, 4, 6, 8, 12],
    "flat": [2, 4, 6],
}
GRAINS = (
    (0.1e-3, 0.5e-6 + 1.27e-6),
    (0.4e-3, 5e-6 + 6.35e-6),
    (1e-3, 5e-6 + 12.7e-6),
    (25e-3, 50e-6 + 63.5e-6),
)


@st.composite
def answers(draw):
    words = {question: draw(st.sampled_from(choices)) for question, choices in WORDS.items()}
    cylinders = draw(st.sampled_from(CYLINDERS[words["arrangement"]]))
    bore = draw(st.integers(30, 200)) / 1000
    drawn = {
        **words,
        "name": draw(st.text(st.characters(exclude_categories=("C", "Z")), min_size=1, max_size=20)),
        "cylinders": cylinders,
        "mains": draw(st.none() | st.integers(2, cylinders + 2)),
        "rods_per_pin": draw(st.none() | st.sampled_from([1, 2])),
        "valves_per_cylinder": 2 if words["valve_train"] == "side valve" else draw(st.integers(2, 5)),
        "pump_stages": draw(st.none() | st.integers(1, 6)),
        "bore": bore,
        "stroke": draw(st.integers(30, 200)) / 1000,
        "main_journal": draw(st.none() | st.just(round(0.6 * bore, 5))),
        "rod_journal": draw(st.none() | st.just(round(0.5 * bore, 5))),
        "rod_length": draw(st.none() | st.just(0.1475)),
    }
    try:
        return Answers(**drawn)
    except AnswerError:
        return Answers(**{**drawn, "pump": "external spur"})


@settings(max_examples=60, deadline=None)
@given(answers())
def test_every_sheet_is_valid(answers):
    assert not [str(problem) for problem in check_sheet(write_sheet(answers))[1]]


@settings(max_examples=30, deadline=None)
@given(answers())
def test_equal_answers_give_equal_texts(answers):
    assert write_sheet(answers) == write_sheet(replace(answers))


@settings(max_examples=30, deadline=None)
@given(answers())
def test_inch_and_millimetre_sheets_say_the_same(answers):
    given_sizes = replace(
        answers, main_journal=0.052, rod_journal=0.045, rod_length=0.1475, compression_height=0.0315
    )
    metric, inch = (read_sheet(write_sheet(replace(given_sizes, units=units))) for units in ("mm", "inch"))
    assert list(metric.fits) == list(inch.fits)
    assert list(metric.dimensions) == list(inch.dimensions)
    assert_same_limits(metric, inch)
    assert_same_sizes(metric, inch)


def assert_same_limits(metric: Sheet, inch: Sheet) -> None:
    one_sheet, other_sheet = ((*sheet.fits.values(), *sheet.dimensions.values()) for sheet in (metric, inch))
    pairs = zip(one_sheet, other_sheet, strict=True)
    for ours, theirs in pairs:
        for one, other in zip(ours.limits, theirs.limits, strict=True):
            assert (one.depends_on, one.applies_to) == (other.depends_on, other.applies_to)
            for a, b in ((one.lower, other.lower), (one.upper, other.upper)):
                assert (a is None) == (b is None)
                if a is not None:
                    assert abs(a.si - b.si) <= grain(one, a), f"{ours.id}: {a.written} against {b.written}"


def grain(limit, bound):
    """Half a step of each unit, the steps being those of the smaller bound."""
    sizes = [abs(each.si) for each in (limit.lower, limit.upper) if each is not None and each.si]
    least = min(sizes, default=0.0)
    return next(step for below, step in GRAINS if least * 1.01 < below) * 1.0001 if bound.si else 0.0


def assert_same_sizes(metric: Sheet, inch: Sheet) -> None:
    for name, ours in metric.dimensions.items():
        theirs = inch.dimensions[name]
        sizes = [
            (ours.nominal, theirs.nominal),
            *zip(ours.plausible or (), theirs.plausible or (), strict=True),
        ]
        for a, b in sizes:
            assert (a is None) == (b is None)
            assert a is None or abs(a.si - b.si) <= 0.5e-6 + 1.27e-6 + 1e-12
    for name, fit in metric.fits.items():
        for one, other in zip(fit.growth, inch.fits[name].growth, strict=True):
            assert abs(one.length - other.length) <= 0.25e-3 + 0.127e-3 + 1e-9
