"""Words of a sheet reach the terminal as they are: never as markup of its own, never as commands to it."""

from __future__ import annotations

from tests.support.codebase import ROOT

ODD = "Twin [/bold] [red]Four[/] :warning: \\[x]"


def test_brackets_in_a_name_are_printed_and_break_nothing(run, tmp_path):
    sheet = tmp_path / "odd.toml"
    text = (ROOT / "tests" / "data" / "sheets" / "small.toml").read_text("utf-8")
    quoted = ODD.replace("\\", "\\\\")
    text = text.replace('title = "Block"', f'title = "Block {quoted}"')
    sheet.write_text(text, "utf-8")
    shop = tmp_path / "shop"
    code, _, err = run("build", "start", sheet, "odd", "--title", ODD, "--data", shop)
    assert code == 0, err
    for command in (["check", "odd"], ["check", "odd", "--state", "as-received"], ["build", "list"]):
        code, out, err = run(*command, "--data", shop)
        assert code == 0, err
        assert ODD in out
    code, out, err = run("sheet", "show", sheet)
    assert code == 0, err
