"""Whatever the record takes, every question is answered; a bad number spoils its own fits only."""

from __future__ import annotations

import json
from collections import Counter

import pytest

from fitwright.assess.results import Reason, State, Verdict
from fitwright.assess.working import working_of
from fitwright.drawing.figures import Reader
from fitwright.formats.assessment import fit_as_json
from fitwright.formats.readings.exporting import rows_of
from fitwright.records.kinds import Setting
from fitwright.records.registry import KINDS
from fitwright.web.fit_lines import fit_line
from tests.support.any_entries import grown
from tests.support.small_sheet import read_clearance, small_story


class KeepsAll(dict):
    """Answers every question with: keep it as typed."""

    def get(self, key, default=None):
        return "keep"


def with_clearance():
    story = small_story()
    read_clearance(story)
    return story


def ask_everything(story):
    """Every verdict in both states, with its working, what settles it, as line, data and table."""
    for state in State:
        assessor = story.assessor(state)
        found = assessor.assessment()
        for each in (*found.verdicts.values(), *found.unlimited.values()):
            working_of(assessor.judge, each)
            json.dumps(fit_as_json(each, assessor.settling(each.id)), allow_nan=False)
            for family in ("mm", "inch"):
                fit_line(assessor, each, Reader(family), "/")
        list(rows_of(story.bench(), state))


@pytest.mark.parametrize("odd", [0.0, 0.1, 0.3])
def test_a_record_of_any_entries_can_be_asked_everything(odd):
    seen: Counter[str] = Counter()
    for seed in range(9):
        story = grown(with_clearance if seed % 2 else small_story, seed, odd=odd, entries=30)
        ask_everything(story)
        seen.update(entry.kind for entry in story.new)
    print(f"{sum(seen.values())} entries, {len(seen)} kinds")
    assert set(KINDS) <= set(seen) | {"build started", "shop setting"}


def test_a_size_that_makes_no_sense_leaves_its_own_fit_unproven_and_says_so():
    story = with_clearance()
    before = story.verdict("clearance")
    story.reads("seat_diameter", None, "40.080", instrument="M", setting="S-M")
    taken = {"instrument": "B", "setting": "S-BR", "answers": KeepsAll()}
    story.reads("seat_bore", None, "2.25", **taken)
    grip = story.verdict("seat_grip")
    assert (grip.verdict, grip.reason) == (Verdict.UNPROVEN, Reason.NOT_COMPUTED)
    assert "interface_diameter" in grip.cautions[0]
    assert story.verdict("clearance") == before
    steps = [step.title for step in working_of(story.assessor().judge, grip).steps]
    assert "Cannot be computed" in steps
    assert "makes no sense" in story.assessor().settling("seat_grip").words()


@pytest.mark.parametrize(
    "master, of_master, why",
    [
        ("B", "S-BM", "setting S-M was made, by way of others, in itself"),
        ("M", "S-M", "setting S-M was made, by way of others, in itself"),
        ("gone", None, "gone, in which setting S-M was made, is not in the shop"),
        ("N", "S-gone", "setting S-gone, in which S-M was made, is not in the shop"),
    ],
)
def test_a_setting_made_in_itself_or_in_what_is_not_there_proves_nothing(master, of_master, why):
    story = with_clearance()
    story.says(Setting(code="S-M", instrument="M", master=master, master_setting=of_master), shop=True)
    found = story.verdict("clearance")
    assert found.verdict is not Verdict.WITHIN
    assert why in {each.why.replace("S-BM was", "S-M was") for each in found.unused}
    ask_everything(story)
