"""The panel above a list of fits: by what it is narrowed, what the search found, in which order it stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fitwright.assess.results import FitVerdict, State, Verdict
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import fits_address
from fitwright.web.filters import VERDICTS, Filters, Order, reasons_of
from fitwright.web.fit_lines import FIRST, NONE
from fitwright.web.pages.choices import Choice

ORDERS: dict[Order, str] = {"sheet": "as on the sheet", "in-hand": "least in hand first"}
IN_THE_FORM = ("q", "station", "sort")
"""What the form of the panel asks for; the rest of the address it carries along."""


@dataclass(frozen=True, slots=True)
class Pick:
    """One line of a list to choose from."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Carried:
    """What the search carries along from the rest of the address."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Panel:
    """Everything by which a list of fits is narrowed, with how many each choice would show.

    `asked` says all of it in words, `everything` is the address without any of it.
    """

    verdicts: tuple[Choice, ...]
    reasons: tuple[Choice, ...]
    kinds: tuple[Choice, ...]
    hot: tuple[Choice, ...]
    action: str
    carried: tuple[Carried, ...]
    query: str
    stations: tuple[Pick, ...]
    orders: tuple[Pick, ...]
    narrow: bool
    asked: str
    everything: str


@dataclass(frozen=True, slots=True)
class Listed:
    """The fits of a build that a panel narrows; each in every state that is shown, the current one last."""

    code: str
    state: State | str
    family: Family
    fits: Sequence[tuple[FitVerdict, ...]]
    searched: frozenset[str]

    def kept(self, filters: Filters) -> list[tuple[FitVerdict, ...]]:
        """The fits that some filters let through in any state."""
        return [every for every in self.fits if any(filters.keeps(each, self.searched) for each in every)]

    def address(self, filters: Filters) -> str:
        """The address of the list under some filters."""
        return fits_address(self.code, self.state, self.family, more=filters.address())

    def choice(self, label: str, filters: Filters, *, chosen: bool, count: Filters | None = None) -> Choice:
        """A choice with how many fits it shows."""
        return Choice(f"{label} {len(self.kept(count or filters))}", self.address(filters), chosen)


def panel_of(listed: Listed, filters: Filters, sheet: Sheet) -> Panel:
    """The panel of a list; each choice keeps the other filters."""
    carried = {"state": str(listed.state), "units": listed.family, **filters.address()}
    return Panel(
        verdicts=tuple(_verdicts(listed, filters)),
        reasons=tuple(_reasons(listed, filters)),
        kinds=tuple(_kinds(listed, filters)),
        hot=tuple(_hot(listed, filters, sheet)),
        action=listed.address(filters).partition("?")[0],
        carried=tuple(Carried(name, value) for name, value in carried.items() if name not in IN_THE_FORM),
        query=filters.query,
        stations=tuple(_stations(listed, filters, sheet)),
        orders=tuple(Pick(value, label, value == filters.order) for value, label in ORDERS.items()),
        narrow=filters.narrow,
        asked=", ".join(_asked(filters, sheet)),
        everything=listed.address(Filters(hot=filters.hot, order=filters.order)),
    )


def hits(shown: Sequence[FitVerdict], every: int, filters: Filters) -> str:
    """How many fits are shown, and how they stand: what is spoken when a filter or a search changes."""
    of_all = f"{len(shown)} of {every} fits" if filters.narrow else f"{every} fits"
    counts = {words: sum(each.verdict is verdict for each in shown) for verdict, words in VERDICTS.items()}
    said = ", ".join(f"{count} {words}" for words, count in counts.items() if count)
    return f"{of_all}: {said}." if said else f"{of_all}."


def _asked(filters: Filters, sheet: Sheet) -> Iterator[str]:
    if filters.verdict is not None:
        why = f" ({filters.why.value})" if filters.why is not None else ""
        yield f"{VERDICTS[filters.verdict]}{why}"
    if filters.critical:
        yield "critical"
    if filters.thumb:
        yield "by a rule of thumb"
    if filters.station:
        yield f"at {sheet.stations[filters.station].title}"
    if filters.query:
        yield f'called "{filters.query}"'


def _verdicts(listed: Listed, filters: Filters) -> Iterator[Choice]:
    yield listed.choice("all", filters.with_verdict(None), chosen=filters.verdict is None)
    for verdict, words in VERDICTS.items():
        yield listed.choice(words, filters.with_verdict(verdict), chosen=filters.verdict is verdict)


def _reasons(listed: Listed, filters: Filters) -> Iterator[Choice]:
    """Why fits are unproven; a reason that is chosen lets go when it is chosen again."""
    if filters.verdict not in (None, Verdict.UNPROVEN):
        return
    other = filters.with_verdict(None)
    for reason in reasons_of(each for every in listed.kept(other) for each in every):
        one = replace(filters, verdict=None, why=reason)
        chosen = filters.why is reason
        yield listed.choice(reason.value, other if chosen else one, chosen=chosen, count=one)


def _kinds(listed: Listed, filters: Filters) -> Iterator[Choice]:
    """Critical fits, rules of thumb; what is chosen lets go when it is chosen again."""
    only_critical, only_thumb = replace(filters, critical=True), replace(filters, thumb=True)
    turned: dict[str, tuple[Filters, Filters, bool]] = {
        "critical": (only_critical, replace(filters, critical=not filters.critical), filters.critical),
        "rule of thumb": (only_thumb, replace(filters, thumb=not filters.thumb), filters.thumb),
    }
    for label, (count, wanted, chosen) in turned.items():
        if chosen or listed.kept(count):
            yield listed.choice(label, wanted, chosen=chosen, count=count)


def _hot(listed: Listed, filters: Filters, sheet: Sheet) -> Iterator[Choice]:
    """Which hot state stands below the scales; none where the sheet has none."""
    cases = list(sheet.temperature_cases.values())
    if not cases:
        return
    yield Choice("cold only", listed.address(replace(filters, hot=NONE)), filters.hot == NONE)
    for index, case in enumerate(cases):
        name = FIRST if index == 0 else case.id
        chosen = filters.hot in (name, case.id)
        yield Choice(case.title, listed.address(replace(filters, hot=name)), chosen)


def _stations(listed: Listed, filters: Filters, sheet: Sheet) -> Iterator[Pick]:
    anywhere = replace(filters, station="")
    every = [kept[-1].station for kept in listed.kept(anywhere)]
    yield Pick("", "all stations", not filters.station)
    for station in sheet.stations.values():
        count = every.count(station.id)
        if count or station.id == filters.station:
            yield Pick(station.id, f"{station.title} ({count})", station.id == filters.station)
