"""How soon the command line answers: the figure to reach is 200 ms for `--help`."""

import subprocess
import sys

import pytest

BARE = "pass"
HELP = "import sys; sys.argv = ['fitwright', '--help']; from fitwright.cli import main; main()"


@pytest.mark.parametrize("program", [BARE, HELP], ids=["bare python", "--help"])
def test_process(benchmark, program):
    def run():
        subprocess.run([sys.executable, "-c", program], check=True, stdout=subprocess.DEVNULL)

    benchmark.pedantic(run, rounds=15, warmup_rounds=2)
    assert benchmark.stats.stats.median < 0.2
