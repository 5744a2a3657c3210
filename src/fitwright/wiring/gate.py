"""A gate for writing: many write at once, or one alone whose entries were held against what stood before."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager


class Gate:
    """Whoever wants to be alone waits until all who are inside have left, and keeps others out meanwhile.

    Nobody may ask for it twice at once in one thread.
    """

    def __init__(self) -> None:
        self._condition = threading.Condition()
        self._inside = 0
        self._alone = False

    @contextmanager
    def among_others(self) -> Iterator[None]:
        """Inside together with others, but not with one who is alone."""
        with self._condition:
            self._condition.wait_for(lambda: not self._alone)
            self._inside += 1
        try:
            yield
        finally:
            with self._condition:
                self._inside -= 1
                self._condition.notify_all()

    @contextmanager
    def alone(self) -> Iterator[None]:
        """Inside with nobody else."""
        with self._condition:
            self._condition.wait_for(lambda: not self._alone)
            self._alone = True
            self._condition.wait_for(lambda: not self._inside)
        try:
            yield
        finally:
            with self._condition:
                self._alone = False
                self._condition.notify_all()
