"""Why an entry of assembly was not taken: the step waits, or whoever signs is not known to be that person."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fitwright.bench.errors import BenchError

STORED_NOTHING = "nothing was stored"


class GuardError(BenchError):
    """The base of all that the record does not take although it is in order by itself; nothing was stored."""


class StepWaitsError(GuardError):
    """A step recorded as done, or a hold point released, whose conditions do not hold."""

    def __init__(self, step: str, title: str, deed: str, words: Sequence[str]) -> None:
        """Say which step, and what it waits for."""
        self.step, self.title, self.words = step, title, tuple(words)
        why = "; ".join(each.rstrip(".") for each in words)
        super().__init__(f"{title} cannot be {deed}, and {STORED_NOTHING}: {why}.")


class NotTheSignerError(GuardError):
    """A release, a permission or a signature entered by somebody else than it names."""

    def __init__(self, what: str, signer: str, person: str | None) -> None:
        """Say who it names, and who entered it."""
        self.what, self.signer, self.person = what, signer, person
        by = f"was entered by {person}" if person else "names nobody who entered it"
        super().__init__(f"This {what} names {signer} and {by}: whoever signs enters it; {STORED_NOTHING}.")


class UnknownSignerError(GuardError):
    """A release, a permission or a signature of somebody who is not in the shop's book."""

    def __init__(self, what: str, signer: str, known: Sequence[str]) -> None:
        """Say who, and who there is."""
        self.what, self.signer, self.known = what, signer, tuple(known)
        there = f"name one of: {', '.join(known[:8])}" if known else "enter somebody first"
        super().__init__(f'Nobody is called "{signer}" who could sign this {what}; {there}.')


class HoldLeftOutError(GuardError):
    """A hold point said to be no part of the job, by nobody."""

    def __init__(self, step: str, title: str) -> None:
        """Say which."""
        self.step, self.title = step, title
        super().__init__(
            f"This would leave the hold point {title} out of the job: say who decides that, with a PIN; "
            f"{STORED_NOTHING}."
        )


class NotOfThisRecordError(GuardError):
    """A signature or a dossier of an entry that this record does not have."""

    def __init__(self, what: str, seq: int) -> None:
        """Say which entry."""
        self.what, self.seq = what, seq
        super().__init__(
            f"This {what} speaks for entry {seq}, which is another one in this record: "
            f"look at the build again and sign what it says now; {STORED_NOTHING}."
        )


class CodeOfAnotherError(GuardError):
    """A code given to another thing than the one that has it."""

    def __init__(self, what: str, code: str, subject: str) -> None:
        """Say whose it is."""
        self.what, self.code, self.subject = what, code, subject
        super().__init__(f"{code} is the {what} of {subject}: take another code; {STORED_NOTHING}.")


class PinError(GuardError):
    """Something signed without the right PIN; `person` is who signs."""

    def __init__(self, person: str, words: str) -> None:
        """Take the whole sentence."""
        self.person = person
        super().__init__(words)


class PinWantedError(PinError):
    """A signature without a PIN, of somebody who has one."""

    def __init__(self, person: str, name: str) -> None:
        """Say whose PIN."""
        super().__init__(person, f"{name} signs with a PIN: type it; {STORED_NOTHING}.")


class NoPinYetError(PinError):
    """A signature of somebody who has no PIN, in a shop of several people."""

    def __init__(self, person: str, name: str) -> None:
        """Say what comes first."""
        words = f"{name} has no PIN yet: set one (`fitwright shop pin {person}`), then sign"
        super().__init__(person, f"{words}; {STORED_NOTHING}.")


class WrongPinError(PinError):
    """A PIN that is not this person's; `seconds` until another can be tried."""

    def __init__(self, person: str, name: str, seconds: float) -> None:
        """Say how long to wait."""
        self.seconds = seconds
        again = f"in {wait_words(seconds)}" if seconds > 0.0 else "again"
        super().__init__(person, f"That is not the PIN of {name}: try {again}; {STORED_NOTHING}.")


class PinWaitError(PinError):
    """A try before the wait after wrong PINs was over."""

    def __init__(self, person: str, name: str, seconds: float) -> None:
        """Say how long it is still."""
        self.seconds = seconds
        words = f"Wrong PINs were typed for {name}: wait {wait_words(seconds)}, then try again"
        super().__init__(person, f"{words}; {STORED_NOTHING}.")


class CannotTakeAwayError(PinError):
    """An entry that would rename somebody who signs, take that person out of the book, or take a PIN back."""

    def __init__(self, person: str, name: str, what: str) -> None:
        """Say what it would do, and what it takes."""
        self.what = what
        words = f"This would {what}: it takes the PIN of {name}, or of somebody else who vouches"
        super().__init__(person, f"{words}; {STORED_NOTHING}.")


class LooksLikeError(PinError):
    """A person entered who would read as somebody else who signs."""

    def __init__(self, person: str, name: str, told: str) -> None:
        """Say whom, and what to do."""
        self.told = told
        words = f"{told} would be taken for {name}, who signs here: add what tells them apart, or let {name}"
        super().__init__(person, f"{words} type the PIN; {STORED_NOTHING}.")


class NewcomerVouchesError(PinError):
    """Somebody vouches who came into the book only after the PIN was set that is to be another."""

    def __init__(self, person: str, name: str, days: int) -> None:
        """Say who, and from when on."""
        words = f"{name} came into the book after that PIN was set, and vouches from {days} days after"
        super().__init__(person, f"{words} having set one; somebody else must now; {STORED_NOTHING}.")


class SignedElsewhereError(PinError):
    """A file that brings something signed in the name of somebody who has a PIN here."""

    def __init__(self, person: str, name: str, what: str) -> None:
        """Say who, and what to do."""
        self.what = what
        words = f"The file brings a {what} in the name of {name}, who has a PIN here and did not type it"
        mend = f"let {name} sign it here, or import the file into a shop of its own with --data"
        super().__init__(person, f"{words}: {mend}; {STORED_NOTHING}.")


class NotStartedError(GuardError):
    """Work or a signature of a build that was not started yet."""

    def __init__(self, what: str, build: str) -> None:
        """Say which build."""
        self.what, self.build = what, build
        super().__init__(
            f"This {what} is of build {build}, which was not started: start it first; {STORED_NOTHING}."
        )


def wait_words(seconds: float) -> str:
    """How long somebody waits.

    Examples
    --------
    >>> wait_words(2.0), wait_words(130.0)
    ('2 s', '3 min')
    """
    return f"{math.ceil(seconds)} s" if seconds <= 90.0 else f"{math.ceil(seconds / 60.0)} min"
