"""`fitwright work`, `put-right`, `sign` and `shop pin`: what they take, ask, show and refuse."""

from __future__ import annotations

import json

import pytest

from fitwright.records import kinds
from fitwright.wiring import open_shop
from tests.support.assembly import ASSEMBLY, newton_metres
from tests.support.bench import gauge
from tests.support.guarded_shop import BUILD, BUILDER, PINS, SECOND, GuardedShop
from tests.support.new_set_sheet import POSITIONS
from tests.support.small_sheet import SHEET


@pytest.fixture
def lone(tmp_path):
    """The folder of a shop of one person, at the hold point of the small engine."""
    shop = GuardedShop(tmp_path / "shop")
    shop.comes_to_hold()
    shop.wired.close()
    return shop.folder


@pytest.fixture
def two(tmp_path):
    """The same of two people who have set their PINs."""
    shop = GuardedShop(tmp_path / "two", people=2)
    shop.set_pins()
    shop.comes_to_hold()
    shop.wired.close()
    return shop.folder


@pytest.fixture
def at(run):
    """Run a command on the shop in a folder."""

    def command(folder, *words, given=""):
        return run(*words, "--data", folder, given=given)

    return command


def entries(folder):
    shop = open_shop(folder, create=False)
    found = list(shop.record.entries())
    shop.close()
    return found


def refused(at, folder, *words, said, given=""):
    before = len(entries(folder))
    code, out, err = at(folder, *words, given=given)
    assert code == 2
    assert said in err
    assert len(err.splitlines()) == 1
    assert len(entries(folder)) == before
    return out


# What can be done.


def test_work_says_what_is_held_and_what_waits_for_it(at, lone):
    code, out, err = at(lone, "work", BUILD)
    assert (code, err) == (0, "")
    assert out.startswith("7 steps: 4 waiting, 1 held, 2 done.")
    assert "‖ Release the bottom end (bottom_end): held: done, and not released yet" in out
    assert "– Close the cover (cover_on): waits for Release the bottom end: not released" in out
    assert "Lay the crank in" not in out
    assert "✓ Lay the crank in (crank_in): done by Builder" in at(lone, "work", BUILD, "--all")[1]


def test_a_step_that_changed_since_is_listed_with_its_cautions(at, lone):
    """Whoever works on it again is as near to it as the first time."""
    assert "! Tightening and breaking" not in at(lone, "work", BUILD)[1]
    code, _, err = at(lone, "work", "loosen", BUILD, "caps", "a shell was looked at", "--by", "builder")
    assert (code, err) == (0, "")
    out = at(lone, "work", BUILD)[1]
    changed = out[out.index("Changed since (") :]
    assert "! Tightening and breaking: Stop at the value of the engine maker's manual" in changed


def test_one_step_is_shown_with_its_conditions_and_cautions(at, lone):
    _, out, _ = at(lone, "work", BUILD, "crank_in")
    assert "! Tightening and breaking: Stop at the value of the engine maker's manual" in out
    assert "    ✓ Running clearance: within" in out
    assert "To be done" in out
    refused(at, lone, "work", BUILD, "crank", said='No step "crank"; name one of: crank_in')


def test_work_as_json_is_whole_and_in_si(at, lone):
    found = json.loads(at(lone, "work", BUILD, "--json")[1])
    assert found["steps"]["bottom_end"]["state"] == "held"
    caps = found["groups"]["caps"]
    assert (caps["group"], caps["complete"]) == ("caps", True)
    assert caps["fasteners"][0]["passes"][-1]["torque"] == 52.0
    one = json.loads(at(lone, "work", BUILD, "crank_in", "--json")[1])
    assert (one["id"], one["may_be_done"]) == ("crank_in", True)


def test_a_sheet_without_an_order_of_work_says_so(at, trial):
    refused(at, trial, "work", "trial", said="The sheet of trial has no order of work")


def test_check_says_it_in_short_only_where_there_is_an_order_of_work(at, lone, trial):
    _, out, _ = at(lone, "check", BUILD)
    assert "Order of work\n7 steps: 4 waiting, 1 held, 2 done." in out
    assert "Held: Release the bottom end" in out
    assert json.loads(at(lone, "check", BUILD, "--json")[1])["work"]["steps"][2]["state"] == "held"
    assert "Order of work" not in at(lone, "check", BUILD, "--only", "within")[1]
    assert "Order of work" not in at(trial, "check", "trial")[1]
    assert "work" not in json.loads(at(trial, "check", "trial", "--json")[1])


# Steps.


def test_a_hold_point_is_not_passed_by_a_command(at, lone):
    refused(
        at, lone, "work", "done", BUILD, "cover_on", said="Release the bottom end is done and not released"
    )
    code, out, _ = at(lone, "work", "release", BUILD, "bottom_end", "--later")
    assert code == 0
    assert "released by builder, who looked again later (entry" in out
    assert entries(lone)[-1].body["later"] is True


def test_a_release_takes_the_pin_of_who_is_named(at, two, monkeypatch):
    release = ("work", "release", BUILD, "bottom_end", "--by", "Builder")
    refused(at, two, *release, said="No PIN was given: set FITWRIGHT_PIN")
    refused(at, two, *release, given="0000\n", said="That is not the PIN of Builder")
    refused(at, two, "work", "release", BUILD, "bottom_end", said="name one of: builder, second")
    monkeypatch.setenv("FITWRIGHT_PIN", PINS[SECOND])
    refused(at, two, *release, said="That is not the PIN of Builder")
    monkeypatch.delenv("FITWRIGHT_PIN")
    code, out, _ = at(two, *release, given=f"{PINS[BUILDER]}\n")
    assert code == 0
    assert PINS[BUILDER] not in out
    assert entries(two)[-1].person == BUILDER


def test_after_a_step_is_done_it_is_said_what_can_be_done_next(at, lone):
    at(lone, "work", "release", BUILD, "bottom_end")
    at(lone, "shop", "part", "gasket-2", "Gasket", "--build", BUILD, "--position", "gasket")
    code, out, _ = at(lone, "work", "use", BUILD, "sealant", "--step", "cover_on", "--batch", "A7")
    assert (code, "Sealant used in Close the cover; batch A7" in out) == (0, True)
    assert at(lone, "work", "done", BUILD, "cover_on")[0] == 0
    assert "waits for Fit the head" in at(lone, "work", BUILD)[1]
    code, out, _ = at(lone, "work", "witness", BUILD, "fill", "--answer", "was-present")
    assert (code, "the customer was present" in out) == (0, True)


# Fasteners.


def test_a_tightening_says_how_its_group_stands_then(at, lone):
    code, out, _ = at(lone, "work", "tighten", BUILD, "head", "--torque", "30 N m", "--fasteners", "h1")
    assert code == 0
    assert "Head studs, h1: pass 1 to 30 N·m; by builder (entry" in out
    assert "! No wrench was named" in out
    assert "next is pass 1, 30 N m, beginning with h2" in out


def test_what_is_asked_about_a_tightening_is_answered_by_an_option(at, lone):
    words = ("work", "tighten", BUILD, "head", "--torque", "30 lbf ft")
    refused(at, lone, *words, said="Is 30 lbf·ft in the wrong unit? 30 N·m would be inside the limits.")
    code, out, _ = at(lone, *words, "--answer", "30 N·m")
    assert (code, "pass 1 to 30 N·m" in out) == (0, True)
    words = ("work", "tighten", BUILD, "head", "--torque", "90 N m")
    refused(at, lone, *words, said="90 N·m is above the sheet's 75 N·m")
    code, out, _ = at(lone, *words, "--answer", "keep")
    assert code == 0
    assert "! Stop at the value of the engine maker's manual" in out


@pytest.fixture
def bolts(tmp_path):
    """The folder of a shop with a build whose cap bolts are positions of the sheet, tightened."""
    shop = GuardedShop(tmp_path / "bolts")
    text = SHEET + ASSEMBLY + POSITIONS
    shop.wired.start_build("bolts", text, kinds.BuildStarted(code="bolts", title="Bolts", sheet=""))
    tightened = kinds.Tightening(
        group="caps", fasteners=("c1", "c2"), number=1, torque=newton_metres(25.0), performed_by=BUILDER
    )
    shop.says(tightened, build="bolts")
    shop.wired.close()
    return shop.folder


def test_a_new_set_is_entered_in_one_go(at, bolts):
    words = ("--stem", "RB2", "--origin", "packet 7", "--by", "builder", "--words", "one use")
    code, out, err = at(bolts, "work", "new-set", "bolts", "caps", "--which", "c1", "c2..c3", *words)
    assert (code, err) == (0, "")
    assert "Main caps, c1, c2 and c3: new set RB2-1 to RB2-3, packet 7 (entries " in out
    assert "Main caps, c1 and c2: the tightening counts no longer." in out
    found = entries(bolts)[-3:]
    assert [(each.kind, each.body["code"], each.person) for each in found] == [
        ("part", f"RB2-{number}", BUILDER) for number in (1, 2, 3)
    ]
    refused(
        at, bolts, "work", "new-set", "bolts", "caps", *words, said="RB2-1, RB2-2 and RB2-3 are there already"
    )


def test_a_new_set_needs_positions_in_the_sheet(at, lone):
    said = "The sheet has no position for all 4 of Main caps: say which bolts they are when you tighten them."
    refused(at, lone, "work", "new-set", BUILD, "caps", "--stem", "RB2", said=said)


def test_fasteners_are_looked_at_loosened_and_heated(at, lone):
    assert at(lone, "work", "look", BUILD, "caps", "marked", "--fasteners", "c1", "c2")[0] == 0
    code, out, _ = at(lone, "work", "loosen", BUILD, "caps", "to look", "--fasteners", "c1")
    assert (code, "Main caps, c1: loosened, to look" in out) == (0, True)
    assert "changed since" in at(lone, "work", BUILD)[1]
    assert at(lone, "work", "heat-cycle", BUILD, "30 min at idle")[0] == 0
    assert entries(lone)[-1].kind == "heat cycle"


def test_a_tightening_is_corrected_by_its_number(at, lone):
    number = next(each.seq for each in entries(lone) if each.kind == "tightening")
    words = ("work", "tighten", BUILD, "caps", "--pass", "1", "--torque", "25.2 N m", "--instead-of", number)
    refused(at, lone, *words, said="A correction needs its reason")
    assert at(lone, *words, "--reason", "misread")[0] == 0
    assert entries(lone)[-1].body["reason"] == "misread"


# Put right and signed.


def test_a_concession_shows_what_it_leads_to_and_keeps_it(at, two):
    words = ("put-right", "concession", BUILD, "clearance", "--highest", "0.065 mm", "--by", BUILDER)
    because = ("--because", "short run")
    code, out, _ = at(two, *words, *because, given=f"{PINS[BUILDER]}\n")
    assert code == 0
    shown = [line.strip() for line in out.splitlines()[:-1]]
    entry = entries(two)[-1]
    assert entry.body["consequence"] == [line.removeprefix("PIN of Builder: ") for line in shown]
    assert "concession C-1: Running clearance accepted to 0.065 mm" in out
    refused(at, two, *words, *because, given="1111\n", said="That is not the PIN of Builder")
    refused(at, two, *words[:-2], *because, said="Nobody is named: say who grants it with --by.")


def test_rework_is_ordered_carried_out_and_followed_up(at, lone):
    words = ("put-right", "rework", BUILD, "crank", "polish", "--dimension", "journal")
    code, out, _ = at(lone, *words, "--target", "55.440")
    assert (code, "to look at afterwards: Running clearance" in out) == (0, True)
    assert at(lone, "put-right", "rework-done", BUILD, "R-1")[0] == 0
    assert "R-1 of Crank: carried out" in at(lone, "work", BUILD)[1]
    assert at(lone, "put-right", "rework-checked", BUILD, "R-1", "clearance", "put-right")[0] == 0
    assert entries(lone)[-1].body["answer"] == "put right"


def test_a_permit_is_given_beforehand(at, lone):
    words = ("put-right", "permit", BUILD, "deck", "--lowest", "199.9 mm", "--because", "decked before")
    assert at(lone, *words)[0] == 0
    assert entries(lone)[-1].body["code"] == "P-1"


def test_a_build_is_signed_up_to_its_last_entry(at, two):
    last = entries(two)[-1]
    code, _, _ = at(two, "sign", BUILD, "--meaning", "checked", "--by", SECOND, given=f"{PINS[SECOND]}\n")
    assert code == 0
    signed = entries(two)[-1]
    assert (signed.body["seq"], signed.body["hash"], signed.person) == (last.seq, last.hash, SECOND)
    refused(
        at, two, "sign", BUILD, "cover", "--meaning", "checked", "--by", SECOND, said='thing to sign "cover"'
    )


# PINs.


def test_a_pin_is_set_changed_and_vouched_for(at, lone):
    assert at(lone, "shop", "pin", "builder", given="2468\n2468\n")[0] == 0
    refused(
        at, lone, "shop", "pin", "builder", given="1111\n9753\n9753\n", said="That is not the PIN of Builder"
    )
    at(lone, "shop", "person", "second", "Second")
    assert at(lone, "shop", "pin", "builder", given="2468\n9753\n9753\n")[0] == 0
    assert at(lone, "shop", "pin", "second", given="13579\n13579\n")[0] == 0
    vouched = ("shop", "pin", "builder", "--vouched-by", "Second")
    assert at(lone, *vouched, given="13579\n8642\n8642\n")[0] == 0
    out = at(lone, "shop", "pin", "builder", given="8642\n1234\n1235\n")
    assert (out[0], "Both PINs are not the same" in out[2]) == (2, True)
    assert not any(pin in str(out) for pin in ("8642", "1235"))


def test_a_pin_typed_at_a_terminal_is_not_shown(at, lone, monkeypatch):
    import getpass
    import sys

    asked = []
    monkeypatch.setattr(getpass, "getpass", lambda prompt: asked.append(prompt) or "2468")
    monkeypatch.setattr("fitwright.cli.pins.sys", type("Tty", (), {"stdin": _Tty(), "stdout": sys.stdout}))
    code, out, _ = at(lone, "shop", "pin", "builder")
    assert code == 0
    assert asked == ["New PIN: ", "New PIN again: "]
    assert "2468" not in out


class _Tty:
    def isatty(self):
        return True


def test_wrenches_stand_on_the_shelf(at, lone):
    shop = open_shop(lone, create=False)
    shop.write([shop.entry(gauge("T3", "torque wrench", "N m", 0.5, range_high=100.0))])
    shop.close()
    words = ("work", "tighten", BUILD, "head", "--torque", "30", "--wrench", "T3")
    refused(at, lone, *words, said="torque wrench T3 (T3) has no dated calibration in the shop's book")
    assert at(lone, *words, "--answer", "keep")[0] == 0
    assert (
        kinds.Tightening.model_validate(
            dict(next(e for e in reversed(entries(lone)) if e.kind == "tightening").body), strict=False
        ).wrench
        == "T3"
    )


def test_a_hold_point_is_left_out_of_the_job_only_with_a_pin(at, two):
    words = ("shop", "not-in-this-job", BUILD, "bottom_end", "--reason", "bottom end untouched")
    refused(at, two, *words, said="This would leave the hold point Release the bottom end out of the job")
    refused(at, two, *words, "--person", BUILDER, given="1\n", said="That is not the PIN of Builder")
    assert at(two, *words, "--person", BUILDER, given=f"{PINS[BUILDER]}\n")[0] == 0
    code, _, _ = at(two, "shop", "not-in-this-job", BUILD, "head_on", "--reason", "no head")
    assert code == 0, "what is no hold point takes no PIN"


def test_a_photo_is_of_a_step_s_own_picture(at, lone, tmp_path):
    from PIL import Image

    Image.new("RGB", (8, 8)).save(tmp_path / "caps.png")
    words = ("shop", "photo", tmp_path / "caps.png", "--build", BUILD, "--subject")
    assert at(lone, *words, "crank_in/arrows")[0] == 0
    refused(at, lone, *words, "crank_in/arows", said='"crank_in/arows"; name one of: crank_in/arrows')
