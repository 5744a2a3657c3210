"""`fitwright shop`: each command makes the entry that it says, or one sentence."""

import json

import pytest

from fitwright.wiring import open_shop


@pytest.fixture
def shop(run, trial):
    """Run a command of `fitwright shop` on the trial shop."""

    def command(*words):
        return run("shop", *words, "--data", trial)

    command.folder = trial
    return command


def last(folder):
    opened = open_shop(folder, create=False)
    entries = list(opened.record.entries())
    opened.close()
    return entries[-1]


INSTRUMENT = ["instrument", "M3", "Micrometer", "--type", "outside micrometer", "--resolution", "0.001"]

ADOPT = [
    "adopt-limit",
    "trial",
    "pump.end_clearance",
    "--by",
    "builder",
    "--source",
    "manual",
    "--reason",
    "why",
]

STORIES = [
    (["person", "apprentice", "Apprentice", "--drag", "0.004"], "person", {"drag": 4e-6}),
    (
        [*INSTRUMENT, "--from", "50", "--to", "75 mm", "--zero-limit", "0.004"],
        "instrument",
        {
            "resolution": 1e-6,
            "repeatability": 1e-6,
            "range_low": 0.05,
            "range_high": 0.075,
            "zero_limit": 4e-6,
        },
    ),
    (
        ["calibration", "M1", "--uncertainty", "0.001", "--date", "2031-01-13"],
        "calibration",
        {"code": "C-M1-1", "standard_uncertainty": 1e-6, "never": False},
    ),
    (["calibration", "M1", "--never"], "calibration", {"never": True}),
    (["check-back", "Z1", "+0.001"], "check-back", {"setting": "Z1"}),
    (["check-back", "Z1", "-0.001 mm", "--person", "builder"], "check-back", {"setting": "Z1"}),
    (
        ["blade-set", "F3", "Fine", "0.05", "0.06=0.0612", "--missing", "0.05"],
        "blade set",
        {"code": "F3", "plugs": False},
    ),
    (["part", "spare", "Spare shim", "--build", "trial", "--used"], "part", {"position": None, "used": True}),
    (["fit-part", "trial", "spare", "shim.1"], "fitting", {"part": "spare", "position": "shim.1"}),
    (["take-out", "trial", "shim.1"], "taking out", {"part": "shim.1", "position": "shim.1"}),
    (
        ["state", "trial", "shim.1", "Lapped", "--dimension", "shim.1.thickness"],
        "state",
        {"code": "R1", "change": "rework", "dimensions": ["shim.1.thickness"]},
    ),
    (
        [
            "stated-size",
            "trial",
            "shim.1.thickness",
            "2.40 mm",
            "--by",
            "box label",
            "--tolerance",
            "0.01 mm",
        ],
        "stated size",
        {"stated_by": "box label", "members": {"shim.1": "shim.1"}},
    ),
    (["not-in-this-job", "trial", "pump", "--reason", "sealed"], "not in this job", {"reason": "sealed"}),
    (
        ["sitting", "trial", "S2", "--temperature", "21 degC", "--gauge", "outside micrometer=M1"],
        "sitting",
        {"temperature": 294.15, "measured_by": "builder", "instruments": {"outside micrometer": "M1"}},
    ),
    (
        [
            "adopt-limit",
            "trial",
            "pump.end_clearance",
            "--by",
            "Builder",
            "--source",
            "manual",
            "--reason",
            "why",
        ],
        "limit adopted",
        {"adopted_by": "builder", "reason": "why", "lower": None},
    ),
    (["note", "Tang marks", "--build", "trial", "--subject", "pump"], "note", {"text": "Tang marks"}),
    (["rule", "critical", "0.99"], "shop setting", {"name": "decision rule critical", "value": "0.99"}),
]


@pytest.mark.parametrize("words, kind, body", STORIES, ids=[words[0] for words, _, _ in STORIES])
def test_a_command_makes_its_entry(shop, words, kind, body):
    assert shop("setting", "Z1", "M1")[0] == 0
    shop("part", "spare", "Spare shim", "--build", "trial")
    code, out, err = shop(*words)
    assert (code, err) == (0, "")
    entry = last(shop.folder)
    assert entry.kind == kind
    assert f"(entry {entry.seq})" in out
    found = {name: entry.body[name] for name in body}
    assert found == {
        name: pytest.approx(value) if isinstance(value, float) else value for name, value in body.items()
    }


@pytest.mark.parametrize("zero", [["--zero", "-0.2"], ["--zero=-0.2 bar"], ["--zero", "-0.2 bar"]])
def test_a_zero_beyond_the_gauge_s_limit_is_asked_for_its_sign(shop, zero):
    code, out, err = shop("setting", "P1-1", "P1", *zero)
    assert (code, out) == (2, "")
    assert "Does it rest below zero" in err
    assert "--answer" in err
    code, out, _ = shop("setting", "P1-1", "P1", *zero, "--answer", "0.2 bar")
    assert code == 0
    assert last(shop.folder).body["answer"] == "0.2 bar"
    code, _, _ = shop("setting", "P1-3", "P1", *zero, "--answer", "-0.2 bar")
    assert code == 0
    code, _, err = shop("setting", "P1-2", "P1", *zero, "--answer", "perhaps")
    assert (code, "name one of" in err) == (2, True)


def test_an_entry_is_withdrawn_by_its_number_and_brought_back(shop):
    shop("note", "Wrong", "--build", "trial")
    number = last(shop.folder).seq
    assert shop("withdraw", number, "--reason", "wrong engine")[0] == 0
    assert shop("withdraw", number + 1)[0] == 0
    code, _, err = shop("withdraw", 9999)
    assert (code, "There is no entry 9999" in err) == (2, True)


def test_a_set_put_back_is_used_again_only_by_choice(shop, run, trial, tmp_path):
    (tmp_path / "r.csv").write_text("dimension,value,unit,instrument\npump.shaft_gap,0.056,mm,D1\n")
    run("import", tmp_path / "r.csv", "trial", "--data", trial)
    reading = last(trial).seq

    def verdict():
        fits = json.loads(run("check", "trial", "--data", trial, "--json")[1])["fits"]
        return next(fit for fit in fits if fit["id"] == "pump.shaft_clearance")["reason"]

    assert verdict() is None
    shop("take-out", "trial", "pump")
    assert verdict() == "changed since"
    shop("fit-part", "trial", "pump", "pump")
    assert verdict() == "changed since"
    code, _, err = shop("choice", "trial", "use-again", reading)
    assert (code, "A choice needs its reason" in err) == (2, True)
    assert shop("choice", "trial", "use-again", reading, "--reason", "same parts")[0] == 0
    assert verdict() is None


@pytest.mark.parametrize(
    "words, said",
    [
        (
            ["instrument", "M3", "M", "--type", "outside micrometre", "--resolution", "0.001"],
            "outside micrometer",
        ),
        (["calibration", "M1"], "--never"),
        (["calibration", "M9", "--never"], "name one of: M1"),
        (["setting", "Z1", "M9"], "name one of: M1"),
        (["setting", "Z1", "M1", "--master", "M9"], "name one of: M1"),
        (["check-back", "Z9", "0"], 'No setting "Z9"'),
        (["blade-set", "F3", "Fine"], "name the blades"),
        (["blade-set", "F3", "Fine", "thin"], '"thin"'),
        (["blade-set", "F3", "Inch set", ".0015", ".002"], "No blade is as thin as .0015 mm: say the unit"),
        (["fit-part", "trial", "spare", "shim.1"], 'No part "spare"'),
        (["fit-part", "trial", "shim.1", "shim.9"], 'No position "shim.9"'),
        (
            ["state", "trial", "shim.1", "Lapped", "--dimension", "shim.1.width"],
            'No dimension "shim.1.width"',
        ),
        (["eye-check", "trial", "turns", "yes"], 'No eye check "turns"'),
        (["sitting", "trial", "S2", "--gauge", "micrometer"], "KIND=CODE"),
        (["sitting", "trial", "S2", "--gauge", "micrometer=M9"], 'No instrument "M9"'),
        (["choice", "trial", "use-again", "--reason", "why"], "A choice needs the entries"),
        (
            ["adopt-limit", "trial", "pump.end_clearance", "--by", "builder", "--source", "manual"],
            "needs a reason",
        ),
        (
            ["adopt-limit", "trial", "pump", "--by", "builder", "--source", "manual", "--reason", "why"],
            'No fit or limited dimension "pump"',
        ),
        (
            [*ADOPT, "--lower", "2 thou", "--upper", "1 thou"],
            "The lower bound 2 thou is above the upper bound 1 thou",
        ),
        ([*ADOPT, "--upper", "2.5"], 'write "2.5 mm" or "2.5 thou"'),
        (["not-in-this-job", "trial", "pmp"], 'begins with "pmp"; name one of: pump'),
        (["rule", "normal", "95"], "between 0.5 and 1"),
        (["note", "x", "--person", "nobody"], "name one of: builder"),
        (["note", "x", "--build", "nothing"], 'No build "nothing"'),
    ],
)
def test_bad_words_get_one_sentence_and_nothing_is_written(shop, words, said):
    before = last(shop.folder).seq
    code, out, err = shop(*words)
    assert (code, out) == (2, "")
    assert said in err
    assert len(err.splitlines()) == 1
    assert last(shop.folder).seq == before


def test_a_set_says_in_which_unit_it_is_marked_and_a_drift_in_which_it_was_read(shop):
    _, out, _ = shop("blade-set", "E1", "Inch set", ".0015", ".002", "--unit", "in")
    assert out.startswith("Inch set, 2 blades marked in in, as E1")
    shop("setting", "Z1", "M1")
    _, out, _ = shop("check-back", "Z1", "+0.001")
    assert out.startswith("Z1 looked at again: 0.001 mm (0.04 thou)")


def test_a_zero_is_answered_with_its_plus_sign_too(shop):
    code, _, _ = shop("setting", "Z1", "P1", "--zero", "-0.2", "--answer", "+0.2 bar")
    assert code == 0


def test_list_says_what_is_on_the_shelf(shop):
    shop("setting", "Z1", "M1")
    shop("calibration", "M1", "--never")
    _, out, _ = shop("list", "--build", "trial")
    assert "builder: Builder" in out
    assert "reads to 0.001 mm, last set Z1, never calibrated" in out
    assert "F2: Fine set: 0.03 0.04" in out
    assert "S1: builder measures" in out
