"""What goes wrong, said in one sentence, and the exit code that goes with it."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cyclopts import App, CycloptsError

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
        told = _told(error)
        if told is None:
            raise
        sys.stderr.write(f"{told}\n")
        return INPUT
    return result if isinstance(result, int) else OK


def mistyped(error: CycloptsError) -> object:
    """What is wrong with the words of a command, to be printed."""
    from cyclopts import CycloptsPanel, UnusedCliTokensError
    from rich.text import Text

    if not isinstance(error, UnusedCliTokensError):
        return CycloptsPanel(error)
    words = ", ".join(f'"{each}"' for each in error.unused_tokens or ())
    command = " ".join(("fitwright", *(error.command_chain or ())))
    return Text(f"{words}: more than this command takes; `{command} --help` says what it takes.")


def _told(error: Exception) -> str | None:
    """The sentence of an error that is one of ours, of the file system or of the database; else nothing."""
    if isinstance(error, OSError):
        if error.filename is None:
            return None
        return f"{error.filename}: {error.strerror}; name another file or folder, or see to this one."
    match type(error).__module__.partition(".")[0]:
        case "fitwright":
            return str(error)
        case "pydantic_core" if type(error).__name__ == "ValidationError":
            from fitwright.records.registry import refusal_of

            return str(refusal_of(error))  # type: ignore[arg-type]  # its library is not loaded for this
    return None
