"""`fitwright import` and `export`: stories from file to file."""

import csv
import hashlib
import json
import shutil

import pytest

from fitwright.examples import photo_files
from fitwright.records.chain import digest_of
from fitwright.records.entry import Entry
from tests.support.codebase import ROOT

READING = "dimension,value,unit,instrument,measured_by\nshim.1.thickness,2.400,mm,M1,builder\n"


def verdicts(run, folder, build="corrie-five", state="current"):
    _, out, _ = run("check", build, "--data", folder, "--json", "--no-oil", "--state", state)
    return {fit["id"]: fit for fit in json.loads(out)["fits"]}


def same(one, other):
    """The same verdicts on the same figures; the order of readings may round the last bit otherwise."""
    assert one.keys() == other.keys()
    for name, fit in one.items():
        twin = other[name]
        for field in ("verdict", "reason", "words"):
            assert fit[field] == twin[field], name
        for field in ("value", "standard_uncertainty", "in_hand"):
            known = twin[field] is not None
            assert fit[field] == (pytest.approx(twin[field], rel=1e-9, abs=1e-15) if known else None), name
        assert [bound["verdict"] for bound in fit["bounds"]] == [bound["verdict"] for bound in twin["bounds"]]


@pytest.mark.parametrize("build", ["corrie-five", "brackengill-eleven"])
def test_a_whole_build_goes_into_an_empty_shop(run, prepared_demo, tmp_path, build):
    code, _, _ = run("export", build, tmp_path / "b.json", "--data", prepared_demo)
    assert code == 0
    code, out, _ = run("import", tmp_path / "b.json", "--data", tmp_path / "copy")
    assert code == 0
    for state in ("current", "as-received"):
        same(verdicts(run, prepared_demo, build, state), verdicts(run, tmp_path / "copy", build, state))
    code, out, _ = run("import", tmp_path / "b.json", "--data", tmp_path / "copy")
    assert "0 entries taken in" in out
    code, out, _ = run("verify", "--data", tmp_path / "copy")
    faults = [line for line in out.splitlines() if line.startswith("Entry")]
    assert all("holds no photo" in each for each in faults), out
    assert (code, len(faults)) == (1, len(photo_files(build))), "a build file names its photos, no more"


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_exported_readings_give_an_empty_copy_the_same_verdicts(run, prepared_demo, tmp_path, ending):
    copy, file = tmp_path / "copy", tmp_path / f"r.{ending}"
    run("export", "corrie-five", tmp_path / "b.json", "--without-readings", "--data", prepared_demo)
    run("import", tmp_path / "b.json", "--data", copy)
    assert not any(fit["readings"] for fit in verdicts(run, copy).values())
    code, out, _ = run("export", "corrie-five", file, "--data", prepared_demo)
    assert (code, "449 readings" in out) == (0, True)
    code, out, err = run("import", file, "corrie-five", "--data", copy, "--answer", "keep")
    assert (code, "449 readings taken in" in out) == (0, True), err
    same(verdicts(run, prepared_demo), verdicts(run, copy))
    code, out, _ = run("import", file, "corrie-five", "--data", copy)
    assert "0 readings taken in" in out
    assert "449 were here already" in out


def test_the_csv_opens_in_a_spreadsheet_of_either_custom(run, prepared_demo, tmp_path):
    run("export", "brackengill-eleven", tmp_path / "r.csv", "--data", prepared_demo, "--semicolons")
    content = (tmp_path / "r.csv").read_bytes()
    assert content.startswith(b"\xef\xbb\xbfpart;dimension;place;")
    rows = list(csv.DictReader(content.decode("utf-8-sig").splitlines(), delimiter=";"))
    assert {row["unit"] for row in rows} >= {"in", ""}
    assert any(row["value"].endswith(" goes") and not row["unit"] for row in rows)


def test_nothing_is_taken_in_while_there_is_a_problem(run, trial, tmp_path):
    (tmp_path / "r.csv").write_text(
        READING + "shim.9.thickness,2.4,mm,M1,builder\nshim.2.thickness,two,mm,M1,\n"
    )
    code, out, err = run("import", tmp_path / "r.csv", "trial", "--data", trial)
    assert (code, out) == (2, "")
    assert "row 3, dimension: " in err
    assert "row 4, value: " in err
    assert "2 rows cannot be taken in" in err
    code, out, _ = run("import", tmp_path / "r.csv", "trial", "--data", trial, "--only-good")
    assert (code, "1 reading taken in" in out, "2 rows left out" in out) == (0, True, True)


@pytest.mark.parametrize("answer, taken", [("keep", 2), ("leave-out", 1)])
def test_questions_want_one_answer_for_all(run, trial, tmp_path, answer, taken):
    (tmp_path / "r.csv").write_text(READING + "pump.width,56.00,mm,M1,builder\n")
    code, _, err = run("import", tmp_path / "r.csv", "trial", "--data", trial)
    assert code == 2
    assert "did you mean 5.600 mm?" in err
    assert "--answer keep or --answer leave-out" in err
    code, out, _ = run("import", tmp_path / "r.csv", "trial", "--data", trial, "--answer", answer)
    assert (code, f"{taken} reading" in out) == (0, True)


def test_a_trial_takes_in_nothing(run, trial, tmp_path):
    (tmp_path / "r.csv").write_text(READING)
    for _ in range(2):
        code, out, _ = run("import", tmp_path / "r.csv", "trial", "--data", trial, "--try")
        assert (code, out) == (0, "1 row would be taken in, 0 are here.\n")


@pytest.mark.parametrize(
    "words, said",
    [
        (["import", "r.csv"], "Say which build"),
        (["import", "missing.csv", "trial"], "is not there"),
        (["import", "r.doc", "trial"], "say by its ending what it is"),
        (["import", "r.csv", "nothing"], 'No build "nothing"'),
        (["import", "r.csv", "trial", "--sitting", "S9"], "name one of: S1"),
        (["import", "r.csv", "trial", "--person", "nobody"], "name one of: builder"),
        (["import", "r.json"], "is no JSON"),
        (["export", "trial", "r.doc"], "say by its ending what to write"),
        (["export", "trial", "r.csv"], "--force to write over it"),
        (["export", "nothing", "new.json"], 'No build "nothing"'),
    ],
)
def test_bad_words_get_one_sentence_and_exit_code_2(run, trial, tmp_path, monkeypatch, words, said):
    monkeypatch.chdir(tmp_path)
    for name in ("r.csv", "r.json"):
        (tmp_path / name).write_text(READING)
    code, out, err = run(*words, "--data", trial)
    assert (code, out) == (2, "")
    assert said in err
    assert len(err.splitlines()) == 1


def test_a_build_that_clashes_is_refused_whole(run, trial, tmp_path):
    (tmp_path / "r.csv").write_text(READING)
    (tmp_path / "s.csv").write_text(READING.replace("shim.1", "shim.2"))
    run("import", tmp_path / "r.csv", "trial", "--data", trial)
    run("export", "trial", tmp_path / "b.json", "--data", trial)
    run("import", tmp_path / "b.json", "--data", tmp_path / "other")
    run("import", tmp_path / "s.csv", "trial", "--data", tmp_path / "other")
    code, _, err = run("import", tmp_path / "b.json", "--data", tmp_path / "other")
    assert code == 2
    assert "with 1 entries that the file does not have" in err


def test_a_build_file_with_a_sheet_that_cannot_be_read_leaves_the_shop_as_it_was(
    run, prepared_demo, tmp_path
):
    """A build that cannot be shown could never be taken out of the shop again."""
    file = tmp_path / "b.json"
    run("export", "corrie-five", file, "--data", prepared_demo)
    document = json.loads(file.read_text("utf-8"))
    old, sheet = next(iter(document["sheets"].items()))
    sheet = sheet.replace("format = 1", "format = 1\nwrong = true", 1)
    digest = hashlib.sha256(sheet.encode()).hexdigest()
    text = json.dumps(document | {"sheets": {digest: sheet}}).replace(old, digest)
    document = json.loads(text)
    for entry in document["entries"]:
        del entry["digest"]
        entry["digest"] = digest_of(Entry(**entry, previous_hash="", hash=""))
    file.write_text(json.dumps(document), "utf-8")
    code, _, err = run("import", file, "--data", tmp_path / "copy")
    assert code == 2
    assert "wrong" in err
    code, out, _ = run("build", "list", "--data", tmp_path / "copy")
    assert "corrie-five" not in out


def test_one_file_of_readings_goes_into_two_builds(run, tmp_path):
    """Twin engines measured alike: the rows of one are not taken for the rows of the other."""
    data, file = tmp_path / "shop", tmp_path / "r.csv"
    sheet = ROOT / "tests" / "data" / "sheets" / "small.toml"
    for code in ("left", "right"):
        assert run("build", "start", sheet, code, "--data", data)[0] == 0
    gauge = ("--type", "outside micrometer", "--resolution", "0.001", "--data", data)
    assert run("shop", "instrument", "M1", "Micrometer", *gauge)[0] == 0
    file.write_text("dimension,place,value,unit,instrument\nmain.1.journal,front/0,60.005,mm,M1\n", "utf-8")
    counts = []
    for build in ("left", "right", "left"):
        code, out, err = run("import", file, build, "--data", data, "--answer", "keep")
        assert code == 0, err
        counts.append(out.split(".")[0])
    assert [each.partition(" ")[0] for each in counts] == ["1", "1", "0"]


def test_an_old_copy_put_back_is_said_by_every_command(run, trial, tmp_path):
    run("backup", tmp_path / "old", "--data", trial)
    run("shop", "person", "guest", "Guest", "--data", trial)
    for left in trial.glob("record.db*"):
        left.unlink()
    shutil.copy(tmp_path / "old" / "record.db", trial / "record.db")
    _, out, err = run("check", "trial", "--json", "--no-oil", "--data", trial)
    json.loads(out)
    assert "entries are missing (an old copy put back" in err
    code, _, err = run("shop", "person", "guest", "Guest", "--data", trial)
    assert code == 2
    assert "read but not written" in err
