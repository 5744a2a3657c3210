"""`--help` answers at once: neither numbers nor the web are loaded for it."""

import subprocess
import sys

import pytest

HEAVY = (
    "alembic",
    "jinja2",
    "numpy",
    "openpyxl",
    "pint",
    "pydantic",
    "scipy",
    "sqlalchemy",
    "starlette",
    "uvicorn",
)
PROBE = """
import sys
sys.argv = ["fitwright", *{arguments!r}]
from fitwright.cli import main
try:
    main()
except SystemExit as stop:
    code = stop.code
else:
    code = 0
print("loaded:", *sorted({heavy!r} & {{name.split(".")[0] for name in sys.modules}}), file=sys.stderr)
sys.exit(code)
"""


@pytest.mark.parametrize("arguments", [["--help"], ["--version"]], ids=" ".join)
def test_loads_nothing_heavy(arguments):
    probe = PROBE.format(arguments=arguments, heavy=set(HEAVY))
    done = subprocess.run(
        [sys.executable, "-c", probe], capture_output=True, text=True, check=False, timeout=60
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip()
    assert done.stderr.splitlines()[-1] == "loaded:", done.stderr
