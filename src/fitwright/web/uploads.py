"""Files between two looks at them: kept for a while, so that nobody sends a file twice."""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from typing import Final, NamedTuple

MOST_BYTES: Final = 120_000_000
"""So much is kept of files that wait for a decision; the oldest go first."""


class Upload(NamedTuple):
    """A file as it came: its name, and its bytes."""

    name: str
    content: bytes


class Uploads:
    """The files that wait, each under a key that follows from its name and content."""

    def __init__(self, most_bytes: int = MOST_BYTES) -> None:
        self._held: OrderedDict[str, Upload] = OrderedDict()
        self._lock = threading.Lock()
        self._most_bytes = most_bytes

    def keep(self, upload: Upload) -> str:
        """Keep a file; its key."""
        key = hashlib.sha256(upload.name.encode() + b"\0" + upload.content).hexdigest()
        with self._lock:
            self._held[key] = upload
            self._held.move_to_end(key)
            while len(self._held) > 1 and self._bytes() > self._most_bytes:
                self._held.popitem(last=False)
        return key

    def get(self, key: str) -> Upload | None:
        """The file under a key, if it is still here."""
        with self._lock:
            return self._held.get(key)

    def drop(self, key: str) -> None:
        """A file was taken in: it need not wait any more."""
        with self._lock:
            self._held.pop(key, None)

    def _bytes(self) -> int:
        return sum(len(each.content) for each in self._held.values())
