"""A disk that ends after so many bytes: files of this process cannot grow beyond them."""

from __future__ import annotations

import resource
import signal
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def files_up_to(size: int) -> Iterator[None]:
    """Refuse each write beyond so many bytes of a file, as a full disk does."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
        signal.signal(signal.SIGXFSZ, handler)
