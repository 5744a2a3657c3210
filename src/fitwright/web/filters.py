"""Which fits are shown, and how: filters that combine, the search, the order; all of it in the address."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import inf
from typing import Final, Literal

from starlette.datastructures import QueryParams

from fitwright.assess.results import FitVerdict, Reason, Verdict
from fitwright.model.limit import LimitClass, SourceKind
from fitwright.model.sheet import Sheet
from fitwright.web.fit_lines import FIRST, NONE

Order = Literal["sheet", "in-hand"]
VERDICTS: Final = {
    Verdict.OUTSIDE: "outside",
    Verdict.UNPROVEN: "unproven",
    Verdict.NOT_MEASURED: "not measured",
    Verdict.WITHIN: "within",
}
"""The verdicts in the order in which they matter, as they are read."""

LONGEST_QUERY = 80


@dataclass(frozen=True, slots=True)
class Filters:
    """What is asked of the page Fits. Each field that says nothing lets every fit through.

    `hot` names the temperature case drawn below the scales, `none` draws none.
    """

    verdict: Verdict | None = None
    why: Reason | None = None
    critical: bool = False
    thumb: bool = False
    station: str = ""
    query: str = ""
    hot: str = FIRST
    order: Order = "sheet"

    @classmethod
    def of(cls, asked: QueryParams, sheet: Sheet) -> Filters:
        """The filters of an address; what it says that means nothing here is passed over."""
        why = next((each for each in Reason if slug(each) == asked.get("why")), None)
        verdict = next((each for each in VERDICTS if each.value == asked.get("only")), None)
        station, hot = asked.get("station", ""), asked.get("hot", FIRST)
        return cls(
            verdict=Verdict.UNPROVEN if why is not None else verdict,
            why=why,
            critical=asked.get("critical") == "1",
            thumb=asked.get("thumb") == "1",
            station=station if station in sheet.stations else "",
            query=" ".join(asked.get("q", "").split())[:LONGEST_QUERY],
            hot=hot if hot == NONE or hot in sheet.temperature_cases else FIRST,
            order="in-hand" if asked.get("sort") == "in-hand" else "sheet",
        )

    def address(self) -> Mapping[str, str]:
        """What the address says of them."""
        found = {
            "only": self.verdict.value if self.verdict is not None and self.why is None else "",
            "why": slug(self.why) if self.why is not None else "",
            "critical": "1" if self.critical else "",
            "thumb": "1" if self.thumb else "",
            "station": self.station,
            "q": self.query,
            "hot": self.hot,
            "sort": self.order if self.order != "sheet" else "",
        }
        return {name: value for name, value in found.items() if value}

    @property
    def narrow(self) -> bool:
        """Whether some fits may be left out."""
        return replace(self, hot=FIRST, order="sheet") != Filters()

    def keeps(self, found: FitVerdict, searched: frozenset[str]) -> bool:
        """Whether a fit is shown; `searched` are those that the search found."""
        return (
            self.verdict in (None, found.verdict)
            and self.why in (None, found.reason)
            and (not self.critical or is_critical(found))
            and (not self.thumb or by_thumb(found))
            and self.station in ("", found.station)
            and found.id in searched
        )

    def with_verdict(self, verdict: Verdict | None, why: Reason | None = None) -> Filters:
        """The same with another verdict, and another reason."""
        return replace(self, verdict=verdict, why=why)


def slug(reason: Reason) -> str:
    """A reason as an address has it."""
    return reason.value.replace(" ", "-")


def is_critical(found: FitVerdict) -> bool:
    """Whether a fit is one that the engine lives by."""
    return found.limit_class == LimitClass.CRITICAL.value


def by_thumb(found: FitVerdict) -> bool:
    """Whether a rule of thumb is what governs, or all that is stated."""
    kinds = {each.source_kind for each in found.bounds if each.governs} or {
        each.source_kind for each in found.bounds
    }
    return SourceKind.RULE_OF_THUMB.value in kinds


def least_in_hand(found: Iterable[FitVerdict]) -> list[FitVerdict]:
    """The fits with what is outside or nearest to a limit first; those without a value last.

    What is in hand is taken as a share of the room between the limits, so that a thou in a bearing and a
    degree at a camshaft stand in one row.
    """
    return sorted(found, key=_share_in_hand)


def _share_in_hand(found: FitVerdict) -> float:
    if found.in_hand is None or found.verdict is Verdict.NOT_MEASURED:
        return inf
    limits = [each.limit for each in found.bounds if each.governs and each.temperature_case is None]
    room = max(limits) - min(limits) or max(map(abs, limits))
    return found.in_hand / room if room else found.in_hand


def reasons_of(found: Iterable[FitVerdict]) -> list[Reason]:
    """Why fits are unproven, in the order of the vocabulary."""
    reasons = {each.reason for each in found if each.verdict is Verdict.UNPROVEN}
    return [each for each in Reason if each in reasons]
