"""What goes wrong, said in one sentence, and the exit code that goes with it."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cyclopts import App

OK = 0
FOUND = 1
INPUT = 2


class UsageError(Exception):
    """Something about the words of a command is wrong; the message is the whole answer."""


def run(app: App, arguments: Sequence[str] | None) -> int:
    """Run the application; known errors become one sentence on standard error and exit code 2."""
    try:
        result = app(arguments, result_action="return_value")
    except BrokenPipeError:
        # The reader of our output went away (`| head`): that is no error of ours.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OK
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped; everything acknowledged is kept.\n")
        return 130
    except Exception as error:
        if not _is_known(error):
            raise
        sys.stderr.write(f"{error}\n")
        return INPUT
    return result if isinstance(result, int) else OK


def _is_known(error: Exception) -> bool:
    """Whether an error is one of ours, or of the file system: its message is meant for people."""
    if isinstance(error, UsageError):
        return True
    if isinstance(error, OSError):
        return error.filename is not None
    return type(error).__module__.startswith("fitwright.")
