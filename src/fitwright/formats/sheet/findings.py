"""The problems found while a sheet is put together, each one once."""

from __future__ import annotations

from fitwright.model.errors import TextError
from fitwright.model.problem import Path, Problem


class Findings:
    """Problems in the order in which they were found; what all members of a family share counts once."""

    def __init__(self) -> None:
        """Nothing found yet."""
        self._found: dict[tuple[Path, str], Problem] = {}

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All problems found."""
        return tuple(self._found.values())

    def add(
        self, path: Path, what: str, accepted: str = "", *, at_key: bool = False, other: Path | None = None
    ) -> None:
        """Note a problem."""
        self._found.setdefault((path, what), Problem(path, what, accepted, at_key, other))

    def add_text_error(self, path: Path, error: TextError, *, at_key: bool = False) -> None:
        """Note a text that cannot be read."""
        what = f'"{error.text}", character {error.position}: {error.problem}'
        self.add(path, what, f"write {error.write}", at_key=at_key)
