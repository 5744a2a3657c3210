"""The head of the chain kept in a second place, so that a lost tail is noticed.

A head file is written after each commit, in place and within one disk block, so it is either the
old head or the new one. It may be one entry behind, never ahead.
"""

from __future__ import annotations

import json
import os
from pathlib import Path

from fitwright.records.entry import Acknowledgement

_LENGTH = 256  # longer than any head, shorter than any disk block


class HeadFile:
    """One head file; it keeps its own trouble instead of failing the commit that it follows."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.trouble: str | None = None
        self._file: int | None = None

    def read(self) -> Acknowledgement | None:
        """The head that the file holds; None, and `trouble` where there is a file, if it holds none."""
        try:
            text = self.path.read_text(encoding="utf-8")
        except (FileNotFoundError, NotADirectoryError):
            return None
        except (OSError, UnicodeDecodeError):
            self.trouble = f"{self.path}: the head file cannot be read"
            return None
        try:
            fields = json.loads(text)
            return Acknowledgement(str(fields["id"]), int(fields["seq"]), str(fields["hash"]))
        except (ValueError, KeyError, TypeError):
            self.trouble = f"{self.path}: the head file holds no head"
            return None

    def write(self, head: Acknowledgement) -> None:
        """Note the head; trouble is kept, as the entry is durable whatever happens here."""
        text = json.dumps({"seq": head.seq, "id": head.id, "hash": head.hash})
        try:
            if self._file is None or not self._still_there(self._file):
                self.close()
                self._file = self._opened()
            os.lseek(self._file, 0, os.SEEK_SET)
            os.write(self._file, text.ljust(_LENGTH - 1).encode() + b"\n")
            self.trouble = None
        except OSError as error:
            self.trouble = f"{self.path}: the head file cannot be written ({error.strerror})"
            self.close()

    def close(self) -> None:
        """Release the file."""
        if self._file is not None:
            os.close(self._file)
            self._file = None

    def _still_there(self, handle: int) -> bool:
        """Whether the open file is still the one of this name (a stick may have been changed)."""
        return self.path.exists() and os.path.samestat(os.fstat(handle), self.path.stat())

    def _opened(self) -> int:
        self.path.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(self.path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o644)
        if os.fstat(handle).st_size != _LENGTH:  # new, or not ours: give it its one block, durably
            os.ftruncate(handle, _LENGTH)
            os.fsync(handle)
        return handle
