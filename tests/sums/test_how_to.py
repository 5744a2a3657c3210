"""The page on quick sums says what the code does."""

import re
import shlex
from pathlib import Path

import pytest

from fitwright.cli import main
from fitwright.data.materials import usual_materials
from fitwright.sums import SUMS

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "how-to" / "quick-sums.md").read_text("utf-8")
COMMANDS = [
    words
    for block in re.findall(r"^```\n(.+?)^```", PAGE, re.DOTALL | re.MULTILINE)
    for text in re.split(r"\n(?=fitwright)", block.strip())
    for words in [shlex.split(text.split("  #")[0])]
    if "|" not in words
]


def test_the_table_lists_every_sum_with_its_source():
    rows = dict(re.findall(r"^\| `([a-z-]+)` \| .+ \| \[(\w+)\] \|$", PAGE, re.MULTILINE))
    assert rows == {name: asked.source for name, asked in SUMS.items()}


def test_every_material_is_named():
    assert all(f"`{name}`" in PAGE for name in usual_materials())


@pytest.mark.parametrize("words", COMMANDS, ids=lambda words: " ".join(words)[:40])
def test_the_commands_run(words, capsys):
    assert len(COMMANDS) > 6
    with pytest.raises(SystemExit) as stopped:
        main(words[1:])
    assert (stopped.value.code, capsys.readouterr().err) == (0, "")
