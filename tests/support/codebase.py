"""What the tests that look at the code itself share: where it lies, and walking over its modules."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "fitwright"


def source_files() -> list[Path]:
    """Every Python file of the package."""
    return sorted(PACKAGE.rglob("*.py"))


def relative(path: Path) -> str:
    """Path below the project's root, with forward slashes."""
    return path.relative_to(ROOT).as_posix()


def physics_modules() -> Iterator[ModuleType]:
    """Every module below fitwright.physics, imported."""
    package = importlib.import_module("fitwright.physics")
    for found in pkgutil.walk_packages(package.__path__, "fitwright.physics."):
        yield importlib.import_module(found.name)


def public_functions(module: ModuleType) -> Iterator[tuple[str, Callable[..., Any]]]:
    """Functions that the module itself defines under a public name."""
    for name, value in vars(module).items():
        if name.startswith("_") or not inspect.isfunction(inspect.unwrap(value)):
            continue
        if value.__module__ == module.__name__:
            yield f"{module.__name__}.{name}", value


def imported_names(path: Path) -> Iterator[tuple[str, int]]:
    """Dotted names that a file imports, each with its line; `from a import b` gives `a.b`."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield from ((f"{node.module}.{alias.name}", node.lineno) for alias in node.names)


def tracked_text(*patterns: str) -> Iterator[tuple[str, str]]:
    """Relative path and text of the project's files that match a pattern."""
    for pattern in patterns:
        for path in sorted(ROOT.glob(pattern)):
            if path.is_file() and ".venv" not in path.parts:
                yield relative(path), path.read_text(encoding="utf-8")
