"""What can be wrong with a dossier: one base class, the message built in each."""

from __future__ import annotations


class DossierError(Exception):
    """The base of what can be wrong with making or reading a dossier."""


class NothingToTellError(DossierError):
    """The entries start no such build, or its sheet is missing."""

    def __init__(self, build: str) -> None:
        """Say which build."""
        self.build = build
        super().__init__(f"The record starts no build {build} with its sheet: start it before its dossier.")


class NoSuchRevisionError(DossierError):
    """A revision was asked for that never went out."""

    def __init__(self, build: str, revision: int) -> None:
        """Say which."""
        self.build, self.revision = build, revision
        super().__init__(
            f"No revision {revision} of the dossier of {build} was handed over: hand it over first."
        )


class PrintingError(DossierError):
    """The document could not be printed; nothing of it is kept."""

    def __init__(self, why: str) -> None:
        """Say why."""
        self.why = why
        super().__init__(f"The dossier could not be printed: {why}.")


class NoDossierError(DossierError):
    """A file that is no dossier, or one that cannot be read: nothing in it was held against anything."""

    def __init__(self, file: str, what: str) -> None:
        """Say which file, and what is wrong."""
        self.file, self.what = file, what
        super().__init__(f"{file}: {what}; name a PDF file that `fitwright dossier` wrote.")


class KeyFileError(DossierError):
    """The shop's signing key cannot be made or used."""

    def __init__(self, file: str, what: str, mend: str) -> None:
        """Say which file, what is wrong, what to do."""
        self.file, self.what, self.mend = file, what, mend
        super().__init__(f"{file}: {what}; {mend}.")
