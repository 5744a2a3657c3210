"""What is outside: how far, what was decided about it, and what can be done."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.assembly.results import (
    ConcessionStanding,
    FastenerStanding,
    FastenerState,
    ReworkStanding,
    Standing,
)
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import Assessment, FitVerdict, Verdict
from fitwright.assess.words import BEFORE_METAL
from fitwright.bench.fastener_lists import fastener_words
from fitwright.web.addresses import measure_address, order_address, put_right_address
from fitwright.web.entering.offers import Offer
from fitwright.web.fit_lines import FitLine
from fitwright.web.hands import Hands
from fitwright.web.view import View


@dataclass(frozen=True, slots=True)
class Decided:
    """What was decided about something that is outside; where it is looked at."""

    words: str
    address: str


@dataclass(frozen=True, slots=True)
class OutsideLine:
    """A fit that is outside: its line, the sentence before metal comes off, decisions, ways on."""

    line: FitLine
    before_metal: str
    decided: tuple[Decided, ...]
    undecided: str
    ways: tuple[Offer, ...]


@dataclass(frozen=True, slots=True)
class FastenerLine:
    """A fastener that is not as the sheet says."""

    title: str
    words: str
    decided: tuple[Decided, ...]
    ways: tuple[Offer, ...]


NOTHING_DECIDED = "Nothing is decided about it yet."


def outside_lines(hands: Hands, view: View, found: Assessment, standing: Standing) -> tuple[OutsideLine, ...]:
    """Every fit that is outside, in the order of the sheet."""
    assessor = hands.shop.assessor(view.code, view.state)
    return tuple(
        _line(hands, view, assessor, each, standing)
        for each in found.verdicts.values()
        if each.verdict is Verdict.OUTSIDE
    )


def _line(hands: Hands, view: View, assessor: Assessor, found: FitVerdict, standing: Standing) -> OutsideLine:
    decided = (*decided_about(view, found.id, standing), *_ordered(view, assessor, found.id, standing))
    return OutsideLine(
        line=hands.lines.line(view, assessor, found, at=hands.shop.position),
        before_metal=BEFORE_METAL if found.removes_metal else "",
        decided=decided,
        undecided="" if decided else NOTHING_DECIDED,
        ways=(
            *_read_again(view, assessor, found),
            Offer("Order a rework", _open(view, "order", found.id), open=False),
            *_not_accepted(
                view,
                found.id,
                accepted=any(each.in_force and each.subject == found.id for each in standing.concessions),
            ),
        ),
    )


def _open(view: View, do: str, subject: str) -> str:
    return put_right_address(view.code, view.family, do=do, subject=subject)


def _read_again(view: View, assessor: Assessor, found: FitVerdict) -> Iterator[Offer]:
    """Where it is measured again, by each route that it has."""
    judge = assessor.judge
    routes = judge.subjects[found.id].routes
    for route in routes:
        names = [term.dimension for term in route.chain]
        first = next((each for each in names if judge.sheet.dimensions[each].station is not None), None)
        if first is None:
            continue
        dimension = judge.sheet.dimensions[first]
        label = "Read it again" if len(routes) == 1 else f"Read it again, {route.name.value}"
        address = measure_address(
            view.code,
            view.family,
            station=dimension.station or "",
            dimension=first,
            place=dimension.places[0].id,
        )
        yield Offer(label, address, open=False)


def decided_about(view: View, subject: str, standing: Standing) -> tuple[Decided, ...]:
    """Concessions and permits for a subject, the one in force first."""
    mine = [each for each in standing.concessions if each.subject == subject]
    mine.sort(key=lambda each: not each.in_force)
    return tuple(_permitted(view, each) for each in mine)


def _permitted(view: View, each: ConcessionStanding) -> Decided:
    until = f", until {each.until}" if each.until else ""
    words = (
        f"under {each.kind} {each.code}{until}"
        if each.in_force
        else f"{each.kind} {each.code} is not in force: {each.why_not}"
    )
    return Decided(words, f"{put_right_address(view.code, view.family)}#permission-{each.code}")


def _ordered(view: View, assessor: Assessor, subject: str, standing: Standing) -> Iterator[Decided]:
    """Orders for the sizes that make up a fit, as long as they are not closed."""
    rests = set(assessor.judge.subjects[subject].dimensions())
    for each in standing.reworks:
        if not each.closed and rests & {size.dimension for size in each.dimensions}:
            yield Decided(_order_words(each), order_address(view.code, each.code, view.family))


def _order_words(each: ReworkStanding) -> str:
    return f"{each.change} ordered ({each.code}): {each.words}"


def is_outside(each: FastenerStanding) -> bool:
    """Whether a fastener lies outside the sheet's figures, accepted or not."""
    return each.state is FastenerState.OUTSIDE or each.under is not None


def _not_accepted(view: View, subject: str, *, accepted: bool) -> tuple[Offer, ...]:
    """What is accepted already is offered nothing more."""
    if accepted:
        return ()
    return (Offer("Grant a concession", _open(view, "grant", subject), open=False),)


def fasteners_outside(view: View, standing: Standing) -> tuple[FastenerLine, ...]:
    """Every fastener whose tightening lies outside the sheet's figures, accepted or not."""
    return tuple(
        FastenerLine(
            f"{group.title}, {fastener_words(group.group, [each.id])}",
            each.words,
            decided_about(view, f"{group.id}/{each.id}", standing),
            _not_accepted(view, f"{group.id}/{each.id}", accepted=each.under is not None),
        )
        for group in standing.groups.values()
        for each in group.fasteners
        if is_outside(each)
    )
