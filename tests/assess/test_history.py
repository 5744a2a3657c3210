"""How a fit came to be what it is: the last moment is the verdict of today, and each change has its own."""

import pytest

from fitwright.assess.distribution import spreads_of
from fitwright.assess.history import history_of
from fitwright.assess.results import State, Verdict
from fitwright.records.kinds import Choice, Fitting, Note, Part, TakingOut, Withdrawal
from tests.support.compare import absolute, verified
from tests.support.small_sheet import read_clearance, small_story
from tests.support.story import Story

EXAMPLES = ["corrie-five", "brackengill-eleven"]


def moments(story, subject):
    return history_of(story.assessor().judge, subject)


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_history_ends_with_the_verdict_of_today(example):
    assessor = Story.of(example).assessor()
    told = 0
    for subject in assessor.judge.subjects:
        found, now = history_of(assessor.judge, subject), assessor.verdict(subject)
        assert bool(found) == bool(now.readings or now.unused), subject
        if found:
            told += 1
            assert found[-1].verdict == now, subject
            assert [each.seq for each in found] == sorted({each.seq for each in found})
    assert told > 55


def test_a_rework_has_a_moment_of_its_own(corrie):
    found = moments(corrie, "main.4.running_clearance")
    assert [each.verdict.verdict for each in found][-1] is Verdict.WITHIN
    outside = next(each for each in found if each.verdict.verdict is Verdict.OUTSIDE)
    rework = next(each for each in found if each.changed)
    assert outside.seq < rework.seq < found[-1].seq
    assert rework.words.startswith("rework R1")
    assert rework.verdict.reason.value == "changed since"


def test_readings_of_one_go_are_one_moment_and_notes_are_none():
    story = small_story()
    read_clearance(story)
    before = moments(story, "clearance")
    assert len(before) == 1
    assert before[0].words == "3 readings, sitting T-1"
    story.says(Note(subject="clearance", text="cold morning"))
    assert [each.seq for each in moments(story, "clearance")] == [each.seq for each in before]


def test_what_is_corrected_withdrawn_and_chosen_shows():
    story = small_story()
    read_clearance(story)
    fitted = story.bench().build.readings_of("fitted")[0].entry.id
    story.reads("fitted", None, "55.502", instrument="B", setting="S-BM", supersedes=fitted, reason="misread")
    later = story.reads("journal", "front", "55.470", instrument="M", setting="S-M")
    front = story.bench().build.readings_of("journal")[0].entry.id
    story.says(Choice(choice="use instead", entries=(front,), instead_of=(later,), reason="on the fillet"))
    story.says(Withdrawal(entry=front, reason="wrong crank"))
    said = [each.words for each in moments(story, "clearance")]
    assert said[1] == "a reading corrected: misread"
    assert said[2] == "1 reading, sitting T-1"
    assert said[3] == "use instead: on the fillet"
    assert said[4] == "an entry withdrawn: wrong crank"


def test_another_part_fitted_shows_and_what_is_elsewhere_does_not():
    story = small_story()
    read_clearance(story)
    story.says(TakingOut(part="shell", position="shell"))
    story.says(Part(code="shell-2", title="Shell, new", position=None))
    story.says(Fitting(part="shell-2", position="shell"))
    story.tries("gap", None, "F:0.05", "goes")
    found = moments(story, "clearance")
    assert [each.words for each in found][1:] == ["shell taken out", "shell-2 fitted"]
    assert all(each.changed for each in found[1:])
    assert found[-1].verdict.verdict is Verdict.UNPROVEN
    assert [each.words for each in moments(story, "end_float")] == ["1 reading, sitting T-1"]


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_strips_of_every_curve_add_up_to_the_probability_of_its_bounds(example):
    assessor = Story.of(example).assessor(State.AS_RECEIVED)
    pairs = [pair for subject in assessor.judge.subjects for pair in strips_and_chances(assessor, subject)]
    strips, probabilities = zip(*pairs, strict=True)
    verified(strips, probabilities, tolerance=absolute(0.003), by="strips, a part of one taken evenly")
    assert len(pairs) > 90


def strips_and_chances(assessor, subject):
    """For each bound the probability by the strips of its curve, and that of its verdict."""
    verdict = assessor.verdict(subject)
    spreads = spreads_of(assessor.judge, verdict)
    for spread in spreads.cold if spreads is not None else ():
        for bound in verdict.bounds if not spread.distribution.open_side else ():
            if bound.places == spread.places and bound.temperature_case is None:
                yield held(spread.distribution, bound), bound.probability


def held(shown, bound):
    """The probability of a bound by the strips of a curve."""
    width = shown.value[1] - shown.value[0]
    below = (bound.limit - (shown.value[0] - width / 2)) / width
    whole = max(0, min(len(shown.share), int(below)))
    part = shown.share[whole] * (below - whole) if 0 <= below < len(shown.share) else 0.0
    under = float(shown.share[:whole].sum() + part)
    return under if bound.side == "upper" else 1.0 - under
