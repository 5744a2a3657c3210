"""The tutorial's commands, run as they stand: at their end its one clearance is proven."""

from __future__ import annotations

import json
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

from fitwright.bench.order import stops
from fitwright.formats.sheet import read_sheet

PAGE = Path(__file__).parents[2] / "docs" / "tutorial" / "first-build.md"
SCRIPT = Path(sys.executable).with_name("fitwright")
TYPED = {"journal": "1.6249", "fitted_bore": "1.6269"}


def commands():
    blocks = re.findall(r"```console\n(.*?)```", PAGE.read_text("utf-8"), re.DOTALL)
    return [line[2:] for block in blocks for line in block.splitlines() if line.startswith("$ ")]


def limit_line():
    block = re.search(r"```toml\n(.*?)```", PAGE.read_text("utf-8"), re.DOTALL)
    return block[1].splitlines()[1]


def run(command, folder, typed=""):
    words = shlex.split(command)
    assert words[0] == "fitwright"
    done = subprocess.run(
        [str(SCRIPT), *words[1:]],
        cwd=folder,
        env={**os.environ, "FITWRIGHT_DATA": str(folder / "shop")},
        input=typed,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, (command, done.stdout, done.stderr)
    return done.stdout


def with_limit(sheet):
    """Add the page's limit to the main bearings' running clearance."""
    at = sheet.index('[fits."main.{1..2}.running_clearance"]')
    head, tail = sheet[:at], sheet[at:]
    assert "limits = [\n" in tail
    return head + tail.replace("limits = [\n", f"limits = [\n{limit_line()}\n", 1)


def keys(sheet):
    """What is typed at the mains: journals and fitted bores, everything else passed over."""
    for stop in stops(sheet, "mains"):
        feature = stop.dimension.rpartition(".")[2]
        yield TYPED.get(feature, "skip")
    yield "end"


def test_the_tutorial_proves_its_clearance(tmp_path):
    ran = commands()
    assert len(ran) >= 10
    for command in ran:
        typed = ""
        if " measure " in command:
            typed = "\n".join(keys(read_sheet((tmp_path / "engine.toml").read_text("utf-8")))) + "\n"
        out = run(command, tmp_path, typed)
        if " new " in command:
            path = tmp_path / "engine.toml"
            path.write_text(with_limit(path.read_text("utf-8")), "utf-8")
        assert out
    found = json.loads(run("fitwright check harrow-1 --json --no-oil", tmp_path))
    fit = next(each for each in found["fits"] if each["id"] == "main.1.running_clearance")
    assert fit["verdict"] == "within", fit
    assert abs(fit["value"] - 2.0 * 25.4e-6) < 1e-9
