"""How soon the server answers its first page, and the command line its `--help`."""

from __future__ import annotations

import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from benchmarks.figure import Figure, quantile, timed
from tests.support.serving import served

HELP = "import sys; sys.argv = ['fitwright', '--help']; from fitwright.cli import main; main()"


def figures(folder: Path) -> Iterator[Figure]:
    """Measure a cold start with the shop in a folder, `--help`, and Python alone for comparison."""
    first_page = [_first_page(folder) for _ in range(6)][1:]
    yield Figure(
        "cold start of the server to its first page", quantile(first_page, 0.5), "s", "median of 5", most=2.0
    )
    yield Figure("--help", 1e3 * _process(HELP), "ms", "median of 9", most=200.0)
    yield Figure("Python alone, doing nothing", 1e3 * _process("pass"), "ms", "median of 9")


def _first_page(folder: Path) -> float:
    begun = time.perf_counter()
    with served(folder) as server, urllib.request.urlopen(server.address + "/") as answer:
        answer.read()
        return time.perf_counter() - begun


def _process(program: str) -> float:
    command = [sys.executable, "-c", program]
    return quantile(
        timed(lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL), 9, warm_up=2), 0.5
    )
