"""What can be wrong with what somebody types at the bench."""

from __future__ import annotations

from collections.abc import Sequence


class BenchError(Exception):
    """The base of all errors of taking readings."""


class UnknownNameError(BenchError):
    """Something was named that is not there."""

    def __init__(self, what: str, name: str, known: Sequence[str]) -> None:
        """Say what is missing, and what comes near or can be named."""
        self.what, self.name, self.known = what, name, tuple(known)
        hint = f"; name one of: {', '.join(known[:8])}" if known else ""
        said = f' "{name}"' if name else ""
        super().__init__(f"No {what}{said}{hint}.")


class EmptyPositionError(BenchError):
    """A reading through a set of parts of which one is not in place."""

    def __init__(self, title: str) -> None:
        """Say which dimension, and what to do."""
        super().__init__(
            f"{title} cannot be read now: one of its parts is taken out. Enter the fitting first."
        )


class UnknownBladeError(BenchError):
    """A blade that no set on the shelf has."""

    def __init__(self, name: str, near_names: Sequence[str]) -> None:
        """Say which blade, and which come near."""
        hint = f" Nearest: {', '.join(near_names)}." if near_names else ""
        super().__init__(
            f'No blade "{name}" on the shelf; name it as SET:MARKING, several with "+".{hint}'
        )
