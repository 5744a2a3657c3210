"""What is not within and was accepted by name: it stays what it is, and says so wherever it is shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime

from fitwright.assess.assembly.fits import permitted
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import Assessment, FitVerdict, State, Verdict


def accepted_words(assessor: Assessor, found: FitVerdict, now: datetime | None = None) -> str:
    """Under which concession or permit a fit stands as it is now; nothing where it does under none.

    Readings from before a rework are accepted by nobody: only the current state is.
    """
    if found.verdict in (Verdict.WITHIN, Verdict.NOT_MEASURED) or assessor.judge.state is not State.CURRENT:
        return ""
    granted = permitted(assessor, found.id, now=now)
    if granted is None:
        return ""
    until = f", until {granted.body.until}" if granted.body.until else ""
    return f"under {granted.kind} {granted.body.code}{until}"


def accepted_in(
    assessor: Assessor, verdicts: Iterable[FitVerdict], now: datetime | None = None
) -> Mapping[str, str]:
    """The same of many, by fit; only of those that stand under one."""
    words = {each.id: accepted_words(assessor, each, now) for each in verdicts}
    return {name: each for name, each in words.items() if each}


def accepted_sentence(assessor: Assessor, found: Assessment, now: datetime | None = None) -> str:
    """How many of those outside somebody accepted; nothing where nobody did.

    It follows the sentence that sums a build up, and changes nothing in it.
    """
    outside = [each for each in found.verdicts.values() if each.verdict is Verdict.OUTSIDE]
    count = len(accepted_in(assessor, outside, now))
    if not count:
        return ""
    verb = "stands" if count == 1 else "stand"
    return f"{count} of those outside {verb} under a concession or permit."
