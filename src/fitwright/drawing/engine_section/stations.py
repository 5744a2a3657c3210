"""States of the stations from an assessment: its verdicts, counted station by station."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Container, Iterable, Mapping

from fitwright.assess.results import FitVerdict, Verdict
from fitwright.drawing.engine_section.state import StationState
from fitwright.model.limit import SourceKind
from fitwright.model.sheet import Sheet


def station_states(
    sheet: Sheet,
    verdicts: Iterable[FitVerdict],
    address: Callable[[str], str | None] = lambda _: None,
    *,
    accepted: Container[str] = (),
) -> Mapping[str, StationState]:
    """The state of each station of a sheet; `address` says where touching its mark leads.

    `accepted` are the fits that stand under a concession or permit.
    """
    every = list(verdicts)
    counts = Counter((each.station, each.verdict, _by_thumb(each)) for each in every)
    under = Counter(each.station for each in every if each.verdict is Verdict.OUTSIDE and each.id in accepted)
    return {
        station.id: StationState(
            id=station.id,
            title=station.title,
            within=counts[station.id, Verdict.WITHIN, False],
            within_rule_of_thumb=counts[station.id, Verdict.WITHIN, True],
            outside=counts[station.id, Verdict.OUTSIDE, False],
            outside_rule_of_thumb=counts[station.id, Verdict.OUTSIDE, True],
            unproven=counts[station.id, Verdict.UNPROVEN, False],
            not_measured=counts[station.id, Verdict.NOT_MEASURED, False],
            accepted=under[station.id],
            href=address(station.id),
        )
        for station in sheet.stations.values()
    }


def _by_thumb(found: FitVerdict) -> bool:
    """Whether a rule of thumb judged; what is open is open, whoever set its limit."""
    judged = found.verdict in {Verdict.WITHIN, Verdict.OUTSIDE}
    return judged and found.source_kind == SourceKind.RULE_OF_THUMB
