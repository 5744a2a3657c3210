"""The pinned requirements hold what the project asks for, with hashes and without addresses."""

import re
import tomllib

import pytest

from tests.support.codebase import ROOT

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
EXTRAS = PROJECT["optional-dependencies"]
WANTED = {
    "runtime": PROJECT["dependencies"] + EXTRAS["editable"],
    "test": PROJECT["dependencies"] + EXTRAS["editable"] + EXTRAS["test"],
}


def plain(requirement):
    return re.split(r"[<>=!~;\[ ]", requirement)[0].lower().replace("_", "-").replace(".", "-")


def pinned(name):
    return (ROOT / "requirements" / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", WANTED)
def test_every_wanted_library_is_pinned(name):
    pins = {plain(line) for line in pinned(name).splitlines() if not line.startswith(" ")}
    missing = {plain(requirement) for requirement in WANTED[name]} - pins
    assert not missing, f"run ./run lock: {sorted(missing)}"


@pytest.mark.parametrize("name", WANTED)
def test_every_pin_is_exact_and_hashed(name):
    blocks = re.split(r"\n(?=\S)", pinned(name).strip())
    loose = [block.splitlines()[0] for block in blocks if "==" not in block or "--hash=sha256:" not in block]
    assert not loose


@pytest.mark.parametrize("name", WANTED)
def test_no_address_is_written_down(name):
    assert "://" not in pinned(name)


def test_what_runs_in_tests_is_what_is_installed():
    def pins(name):
        return set(re.findall(r"^(\S+==[^ \\]+)", pinned(name), flags=re.MULTILINE))

    assert pins("runtime") <= pins("test")
