"""Sheets as files: the bytes of one as text."""

from __future__ import annotations

from fitwright.formats.errors import FormatError


class NotTextError(FormatError):
    """A file that is no text in UTF-8."""

    def __init__(self, file: str, byte: int) -> None:
        """Say which file, where, and what to do."""
        self.file, self.byte = file, byte
        super().__init__(f"{file} is not UTF-8 text at byte {byte}: save it as UTF-8.")


def text_of(content: bytes, *, file: str) -> str:
    """The text in the bytes of a file, every line ended by a newline only.

    Raises
    ------
    NotTextError
        If it is not UTF-8.
    """
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise NotTextError(file, error.start) from error
    return text.replace("\r\n", "\n").replace("\r", "\n")
