"""Files that a command writes: whole under their name, or not at all."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fitwright.cli.errors import UsageError


@contextmanager
def written(file: Path) -> Iterator[Path]:
    """Another path to write to, which becomes the file once all of it is there.

    Raises
    ------
    UsageError
        If the disk refuses; what stood under the name before is still there.
    """
    part = file.with_name(f".part-{file.name}")
    try:
        yield part
        part.replace(file)
    except OSError as error:
        raise UsageError(f"{file} could not be written ({error.strerror}); name another place.") from error
    finally:
        part.unlink(missing_ok=True)
