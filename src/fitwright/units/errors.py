"""The errors of this package: one sentence each, with what to write instead."""

from __future__ import annotations


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


class UnknownUnitError(UnitsError):
    """A unit name in our own code or in a record that is not in the table."""

    def __init__(self, name: str) -> None:
        """Build the sentence."""
        self.name = name
        super().__init__(f'"{name}" is not a unit that fitwright knows')
