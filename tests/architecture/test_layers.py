"""The picture in ARCHITECTURE.md holds."""

import subprocess
import sys

import pytest

from tests.support.codebase import PACKAGE, ROOT, imported_names, relative, source_files

# A library that lives in one place can be left by changing that place (docs/decisions/0002-libraries.md).
HOMES = {
    "alembic": ("store",),
    "cyclopts": ("cli",),
    "fluids": (),  # an oracle for tests only
    "jinja2": ("web",),
    "markdown_it": ("web",),
    "openpyxl": ("formats",),
    "pint": (),  # an oracle for tests only
    "sqlalchemy": ("store",),
    "starlette": ("web",),
    "tomlkit": ("formats",),
    "tree_sitter": ("formats",),
    "tree_sitter_toml": ("formats",),
}
# A quarter of a second and more each.
SLOW_TO_IMPORT = {
    "scipy.special": ("physics/metrology/", "physics/fits/"),
    "scipy.integrate": ("physics/metrology/", "physics/fits/", "physics/numerics/"),
    "scipy.optimize": ("physics/metrology/", "physics/fits/", "physics/numerics/"),
    "scipy.stats": ("physics/metrology/", "physics/fits/", "physics/numerics/"),
}


def test_import_contracts_hold():
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]
    done = subprocess.run(
        [*command, "--no-logo", "--no-cache"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("library", HOMES)
def test_library_stays_at_home(library):
    strangers = [
        f"{relative(path)}:{line}"
        for path in source_files()
        if path.relative_to(PACKAGE).parts[0] not in HOMES[library]
        for name, line in imported_names(path)
        if name.split(".")[0] == library
    ]
    assert not strangers, (
        f"{library} belongs to {' and '.join(HOMES[library]) or 'tests'}: {', '.join(strangers)}"
    )


@pytest.mark.parametrize("library", SLOW_TO_IMPORT)
def test_scipy_only_where_it_is_needed(library):
    strangers = [
        f"{relative(path)}:{line} imports {name}"
        for path in source_files()
        if not path.relative_to(PACKAGE).as_posix().startswith(SLOW_TO_IMPORT[library])
        for name, line in imported_names(path)
        if name.startswith(library)
    ]
    assert not strangers, "; ".join(strangers)
