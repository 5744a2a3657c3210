"""The commands on the how-to pages run as they stand, one after another."""

import re
import shlex
from contextlib import closing, nullcontext

from fitwright.assess.oil.desk import OilDesk
from fitwright.wiring import open_shop
from tests.support.codebase import ROOT

PAGES = ROOT / "docs" / "how-to"


def commands(page, heading):
    """The command lines of the first fenced block under a heading."""
    text = (PAGES / page).read_text(encoding="utf-8").split(f"## {heading}\n")[1]
    block = re.search(r"^```\n(.*?)^```", text, re.DOTALL | re.MULTILINE)[1]
    return [shlex.split(line)[1:] for line in block.splitlines()]


def test_the_shop_page_runs_on_the_demo_engine(run, tmp_path):
    """From an empty shop: its things entered, a build begun, a part swapped, a journal polished."""
    from fitwright.examples import sheet_text

    sheet, data = tmp_path / "sheet.toml", tmp_path / "shop"
    sheet.write_text(sheet_text("corrie-five"), encoding="utf-8")
    assert run("build", "start", sheet, "JOB", "--data", data)[0] == 0
    lines = commands("shop.md", "Before the first reading") + commands("shop.md", "Parts")
    assert len(lines) == 13
    for line in lines:
        code, out, err = run(*line, "--data", data)
        assert (code, err) == (0, ""), line
        assert "(entry " in out


def test_the_place_on_the_measuring_page_is_shown_so(run, prepared_demo, tmp_path):
    import shutil

    data = shutil.copytree(prepared_demo, tmp_path / "shop")
    text = (PAGES / "take-readings.md").read_text(encoding="utf-8")
    shown = text.split("```\n")[3].splitlines()
    _, out, _ = run("measure", "corrie-five", "mains", "--data", data, given="11\n")
    for line in (shown[0], shown[2], shown[3]):
        assert line in out


def test_the_page_on_oil_pressure_runs_on_the_demo(run, prepared_demo, tmp_path, monkeypatch):
    """Best estimates stand for bands here: what is asked is whether the words are understood."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(OilDesk, "banded", OilDesk.best)
    page = "predict-oil-pressure.md"
    headings = (
        "In short",
        "In full",
        "What if",
        "The card for the first start",
        "Pictures, and other programs",
    )
    lines = [line for heading in headings for line in commands(page, heading)]
    assert len(lines) == 12
    with closing(open_shop(prepared_demo, create=False)) as shop:
        for command in ("check", "oil"):
            monkeypatch.setattr(f"fitwright.cli.{command}.opened", lambda _: nullcontext(shop))
        for line in lines:
            code, out, _ = run(*line)
            assert code == 0, line
            assert "Oil of " in out or "--svg" in line, line
    assert (tmp_path / "pictures" / "circuit.svg").is_file()


def test_the_page_on_assembly_work_runs_on_the_demo(run, prepared_demo, tmp_path, monkeypatch):
    """From what can be done to a hold point released, a permit, and a rework followed up."""
    import shutil

    data, page = shutil.copytree(prepared_demo, tmp_path / "shop"), "record-assembly-work.md"
    monkeypatch.setenv("FITWRIGHT_PIN", "24680")
    headings = (
        "What can be done now",
        "A step with its fasteners",
        "Consumables",
        "Hold points and PINs",
        "Another value than the sheet's",
        "Rework",
    )
    lines = [line for heading in headings for line in commands(page, heading)]
    assert len(lines) == 19
    shown = []
    for line in lines:
        given = "24680\n24680\n" if line[:2] == ["shop", "pin"] else ""
        code, out, err = run(*line, "--data", data, given=given)
        assert (code, err) == (0, ""), (line, err)
        shown.append(out)
    before, after = shown[0], shown[-4]
    assert "Can be done now (1)" in before
    assert "Flywheel on, new tab washers (flywheel.on): changed since" in after
