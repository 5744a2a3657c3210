"""The build in short, for the cover: how many of what, and what no document of ours says."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.dossier.sections.fits import verdict_counts
from fitwright.dossier.sections.teller import Teller, counted

CLAIMS = (
    "Every word here is computed from what people recorded. It says whether recorded fits lie within limits "
    "that somebody set, and what was not recorded. It does not say that the engine is good. The engine "
    "maker's manual and local codes govern; a qualified person decides."
)


def counts(teller: Teller) -> Iterator[tuple[str, str]]:
    """How it stands, in a few lines."""
    known, standing = teller.known, teller.standing
    yield "Fits", verdict_counts(teller)
    yield "Readings", counted(len(known.state.readings), "reading", "readings")
    if standing.groups:
        done = sum(each.complete for each in standing.groups.values())
        yield "Tightening", f"{done} of {counted(len(standing.groups), 'group', 'groups')} complete"
    if standing.steps:
        done = sum(each.counts for each in standing.steps.values())
        yield "Order of work", f"{done} of {counted(len(standing.steps), 'step', 'steps')} done or released"
    permits = sum(each.in_force for each in standing.concessions)
    yield "Accepted as it is", f"{counted(permits, 'permission', 'permissions')} in force"
    yield "Open points", str(len(standing.open_points))
