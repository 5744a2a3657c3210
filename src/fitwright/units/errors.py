"""The errors of this package: one sentence each, with what to write instead."""

from __future__ import annotations

EXAMPLE = "67.08 mm"
"""What an error shows as an amount, until the unit of the place is known."""


class UnitsError(ValueError):
    """Base of all errors about amounts and units."""


class QuantityError(UnitsError):
    """A text that is no amount: which text, what is wrong with it, what to write instead.

    `key` is stable (`no_unit`, `unknown_unit`, `grouping`, ...), for tests and translations.
    """

    def __init__(self, text: str, key: str, problem: str, write: str) -> None:
        """Build the sentence; `write` completes "write ..."."""
        self.text = text
        self.key = key
        self.problem = problem
        self.write = write
        super().__init__(f'"{text}" {problem}; write {write}')

    def with_example(self, example: str) -> QuantityError:
        """The same with another amount as its example."""
        return QuantityError(self.text, self.key, self.problem, self.write.replace(EXAMPLE, example))


class UnknownUnitError(UnitsError):
    """A unit name in our own code or in a record that is not in the table."""

    def __init__(self, name: str) -> None:
        """Build the sentence."""
        self.name = name
        super().__init__(f'"{name}" is not a unit that fitwright knows')
