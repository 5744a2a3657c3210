"""The page Put right: what is outside, what was decided about it, what is unproven."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.assess.assembly.results import Standing
from fitwright.assess.results import Assessment, State, Verdict
from fitwright.units.families import Family
from fitwright.web.addresses import enter_put_right_address, fits_address, put_right_address
from fitwright.web.entering.asked import asking_of, from_address
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import Forms
from fitwright.web.entering.offers import OfferRow, offered
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.put_right.every import FORMS, OFFERED
from fitwright.web.pages.put_right.orders import OrderLine, order_lines
from fitwright.web.pages.put_right.outside import (
    FastenerLine,
    OutsideLine,
    fasteners_outside,
    is_outside,
    outside_lines,
)
from fitwright.web.pages.put_right.permissions import PermissionLine, permission_lines
from fitwright.web.pages.put_right.unproven import UnprovenLine, unproven_lines
from fitwright.web.view import View
from fitwright.web.visit import Visit
from fitwright.web.writing import capital


@dataclass(frozen=True, slots=True)
class PutRightContext:
    """The page Put right."""

    template: ClassVar[str] = "put_right/put_right.html"
    frame: Frame
    summary: str
    offered: tuple[OfferRow, ...]
    outcome: Said | None
    entry: EntryForm | None
    has_readings: bool
    outside: tuple[OutsideLine, ...]
    fasteners: tuple[FastenerLine, ...]
    orders: tuple[OrderLine, ...]
    permissions: tuple[PermissionLine, ...]
    unproven: tuple[UnprovenLine, ...]
    not_measured: int
    to_measure: str


def put_right_page(visit: Visit, said: Said | None, form: EntryForm | None) -> PutRightContext:
    """The whole page, with a form open or what came of one."""
    _, hands, code, family = visit
    with hands.shop.held():
        asking = asking_of(visit, from_address(visit))
        view, found = View(code, State.CURRENT, family), hands.shop.assessment(code, State.CURRENT)
        standing = hands.shop.assembly(code)
        return PutRightContext(
            frame=put_right_frame(hands, "Put right", code, family),
            summary=_summary(found, standing),
            offered=offered(asking, OF_PUT_RIGHT, OFFERED, form),
            outcome=said,
            entry=form,
            has_readings=any(each.effective for each in asking.bench.build.readings.values()),
            outside=outside_lines(hands, view, found, standing),
            fasteners=fasteners_outside(view, standing),
            orders=order_lines(view, standing),
            permissions=permission_lines(asking.bench, view, standing),
            unproven=unproven_lines(hands, view, found),
            not_measured=found.count(Verdict.NOT_MEASURED),
            to_measure=fits_address(code, State.CURRENT, family, only=Verdict.NOT_MEASURED.value),
        )


def put_right_frame(hands: Hands, title: str, code: str, family: Family, *, parts: bool = False) -> Frame:
    """The frame of this page, and of the page of one order, which has lines as the page Parts has them."""
    return frame_of(
        hands,
        title,
        "Put right",
        build=code,
        family=family,
        help_page="put-right",
        styles=("entering.css", *(["parts.css"] if parts else []), "put_right.css"),
        scripts=("entering.js",),
    )


def _summary(found: Assessment, standing: Standing) -> str:
    outside = [each.id for each in found.verdicts.values() if each.verdict is Verdict.OUTSIDE]
    accepted = {each.subject for each in standing.concessions if each.in_force}
    under = sum(name in accepted for name in outside)
    orders = sum(not each.closed for each in standing.reworks)
    fasteners = [each for group in standing.groups.values() for each in group.fasteners if is_outside(each)]
    taken = sum(each.under is not None for each in fasteners)
    words = [
        f"{_counted(len(outside), 'fit')} outside{f', {under} of them under concession' if under else ''}",
        f"{_counted(len(fasteners), 'fastener')} outside{f', {taken} of them accepted' if taken else ''}"
        if fasteners
        else "",
        f"{found.count(Verdict.UNPROVEN)} unproven",
        f"{_counted(orders, 'rework order')} open" if standing.reworks else "",
    ]
    return capital(f"{'; '.join(each for each in words if each)}.")


def _counted(number: int, noun: str) -> str:
    return f"1 {noun}" if number == 1 else f"{number or 'no'} {noun}s"


OF_PUT_RIGHT: Final = Forms("Put right", FORMS, put_right_address, enter_put_right_address, put_right_page)
"""The forms of this page."""
