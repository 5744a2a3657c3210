"""What un-proves a fit: a part moved, a part reworked, a setting that drifted: exactly that, and why."""

from __future__ import annotations

from fitwright.assess.results import Reason, State, Verdict
from fitwright.records.kinds import CheckBack, Choice, Fitting, TakingOut, Typed, Withdrawal
from fitwright.records.kinds import State as StateChange
from tests.support.story import changed

SHELL, PLACE_OF_SHELL, CRANK = "main-shell-2u", "main.2.shell_upper", "crank-4471"


def readings_of(story, dimension):
    return tuple(
        record.entry.id
        for record in story.bench().build.readings.values()
        if record.dimension == dimension and record.effective
    )


def test_a_shell_moved_to_another_main_unproves_both_mains_and_nothing_else(corrie):
    before = corrie.verdicts()
    corrie.says(Fitting(part=SHELL, position="main.5.shell_upper", reason="tried for a better clearance"))
    after = corrie.verdicts()
    assert changed(before, after) == {"main.2.running_clearance", "main.5.running_clearance"}
    for name in ("main.2.running_clearance", "main.5.running_clearance"):
        assert after[name].verdict is Verdict.UNPROVEN
        assert after[name].reason is Reason.CHANGED_SINCE
        whys = [unused.why for unused in after[name].unused if unused.changed]
        assert any("upper shell" in why.lower() for why in whys), whys
    assert corrie.verdict("main.2.running_clearance", State.AS_RECEIVED).verdict is Verdict.WITHIN


def test_putting_the_set_back_restores_its_readings_only_by_choice(corrie):
    read = readings_of(corrie, "main.2.fitted_bore")
    before = corrie.verdicts()
    corrie.says(TakingOut(part=SHELL, position=PLACE_OF_SHELL))
    assert corrie.verdict("main.2.running_clearance").verdict is Verdict.UNPROVEN
    corrie.says(Fitting(part=SHELL, position=PLACE_OF_SHELL))
    put_back = corrie.verdict("main.2.running_clearance")
    assert (put_back.verdict, put_back.reason) == (Verdict.UNPROVEN, Reason.CHANGED_SINCE)
    assert any("only by choice" in unused.why for unused in put_back.unused)
    corrie.says(Choice(choice="use again", entries=read, reason="same shells, same torque, not disturbed"))
    assert changed(before, corrie.verdicts()) == set()


def test_a_choice_made_before_the_shells_came_out_does_not_count(corrie):
    read = readings_of(corrie, "main.2.fitted_bore")
    corrie.says(Choice(choice="use again", entries=read, reason="too early"))
    corrie.says(TakingOut(part=SHELL, position=PLACE_OF_SHELL))
    corrie.says(Fitting(part=SHELL, position=PLACE_OF_SHELL))
    assert corrie.verdict("main.2.running_clearance").verdict is Verdict.UNPROVEN


def test_a_polished_journal_unproves_what_rested_on_it(corrie):
    before = corrie.verdicts()
    corrie.says(
        StateChange(
            code="R9",
            change="rework",
            part=CRANK,
            dimensions=("main.3.journal",),
            words="journal 3 polished",
        )
    )
    after = corrie.verdicts()
    touched = changed(before, after)
    assert "main.3.running_clearance" in touched
    assert all(name.startswith("main.3.journal") or name == "main.3.running_clearance" for name in touched)
    assert all("R9" in " ".join(unused.why for unused in after[name].unused) for name in touched)
    assert after["main.3.running_clearance"].reason is Reason.CHANGED_SINCE
    assert corrie.verdict("main.3.running_clearance", State.AS_RECEIVED).verdict is Verdict.WITHIN


def test_a_reworked_journal_read_again_is_proven_again(corrie):
    before = corrie.verdicts()
    corrie.says(
        StateChange(code="R9", change="rework", part=CRANK, dimensions=("main.3.journal",), words="polished")
    )
    for place in corrie.sheet.dimensions["main.3.journal"].places:
        corrie.reads("main.3.journal", place.id, "55.992", instrument="M3")
    assert changed(before, corrie.verdicts()) == set()


def check_back(text, si):
    return CheckBack(setting="S-014", drift=Typed(typed=text, unit="mm", decimals=3, si=si))


def test_a_drifted_setting_unproves_what_was_read_in_it_until_somebody_decides(corrie):
    before = corrie.verdicts()
    in_setting = tuple(
        record.entry.id
        for record in corrie.bench().build.readings.values()
        if getattr(record.body.observation, "setting", None) == "S-014"
    )
    corrie.says(check_back("0.012", 12e-6), shop=True)
    after = corrie.verdicts()
    touched = changed(before, after)
    rested = {name for name, found in before.items() if set(found.readings) & set(in_setting)}
    assert touched
    assert touched <= rested
    assert all(after[name].reason is Reason.CHANGED_SINCE for name in touched)
    assert any("S-014" in unused.why for name in touched for unused in after[name].unused)
    corrie.says(Choice(choice="use again", entries=in_setting, reason="drift came after the mains"))
    kept = corrie.verdicts()
    for name in touched:
        assert kept[name].standard_uncertainty > before[name].standard_uncertainty


def test_a_small_check_back_only_widens(corrie):
    before = corrie.verdict("main.2.running_clearance")
    corrie.says(check_back("0.001", 1e-6), shop=True)
    after = corrie.verdict("main.2.running_clearance")
    assert after.verdict is before.verdict
    assert after.standard_uncertainty > before.standard_uncertainty


def test_withdrawing_the_fitting_brings_everything_back(corrie):
    before = corrie.verdicts()
    fitting = corrie.says(Fitting(part=SHELL, position="main.5.shell_upper"))
    assert corrie.verdicts() != before
    corrie.says(Withdrawal(entry=fitting, reason="it was never done"))
    after = corrie.verdicts()
    assert changed(before, after) == set()
    assert [found.value for found in after.values()] == [found.value for found in before.values()]
