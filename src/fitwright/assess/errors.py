"""What can go wrong when a sheet and a record are put together."""

from __future__ import annotations


class AssessError(Exception):
    """The base of all errors of an assessment."""


class GaugeNotKnownError(AssessError):
    """A reading names an instrument or blade that the shop does not have."""

    def __init__(self, entry: str, gauge: str | None) -> None:
        """Say which reading, and what to do."""
        self.entry, self.gauge = entry, gauge
        named = f'names "{gauge}"' if gauge else "names no instrument"
        super().__init__(
            f"Reading {entry[:8]} {named}, which the shop does not have: enter the instrument in the "
            f"shop, or enter the reading again with one that is there."
        )


class UnknownSubjectError(AssessError):
    """Somebody asked for a fit or dimension that the sheet does not have."""

    def __init__(self, subject: str, near: tuple[str, ...] = ()) -> None:
        """Say which, and what comes near."""
        self.subject, self.near = subject, near
        hint = f" Did you mean {near[0]}?" if near else ""
        super().__init__(f'The sheet has no fit or dimension "{subject}".{hint}')
