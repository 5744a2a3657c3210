"""One gauge study: its readings, its result by both ways, and its repeatability taken over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.bench.studies import with_repeatability
from fitwright.records.kinds import GaugeStudy
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import gauge_words, small
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Link, Made, Order, shop_route
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.study_result import StudyResult, result_of, spreads_of
from fitwright.web.pages.shop.ways import shop_frame, shop_ways, thing_address
from fitwright.web.writing import UnclearFormError

OWN, WHOLE = "repeatability", "gauge"


@dataclass(frozen=True, slots=True)
class StudyRow:
    """One part: what each person read of it."""

    part: str
    readings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StudyContext:
    """The page of one gauge study."""

    template: ClassVar[str] = "shop/study.html"
    frame: Frame
    ways: tuple[Choice, ...]
    gauge: Link
    result: StudyResult
    people: tuple[str, ...]
    rows: tuple[StudyRow, ...]
    unit: str
    note: str
    form: EntryForm | None
    history: tuple[HistoryLine, ...]


def _study(asking: Asking) -> StudyContext | None:
    shop = asking.hands.shop.state
    held = shop.studies.get(asking.code)
    if held is None or not held.body.readings:
        return None
    body = held.body
    gauge = shop.instruments.get(body.instrument)
    people = tuple(dict.fromkeys(each.person for each in body.readings))
    found = result_of(body)
    title = gauge_words(gauge.body) if gauge is not None else body.instrument
    return StudyContext(
        frame=shop_frame(asking.hands, f"Gauge study {body.code}"),
        ways=shop_ways("Studies"),
        gauge=Link(title, thing_address("instruments", body.instrument)),
        result=found,
        people=people,
        rows=tuple(
            StudyRow(part, tuple(_cell(body, person, part) for person in people))
            for part in dict.fromkeys(each.part for each in body.readings)
        ),
        unit=body.readings[0].indication.unit,
        note=body.note or "",
        form=_form(asking, body) if gauge is not None and not found.wrong else None,
        history=history_of(shop, GaugeStudy.kind, body.code),
    )


def _cell(body: GaugeStudy, person: str, part: str) -> str:
    own = [each.indication.typed for each in body.readings if (each.person, each.part) == (person, part)]
    return ", ".join(own)


def _form(asking: Asking, body: GaugeStudy) -> EntryForm:
    form = FormOf(asking, "take-over")
    unit = body.readings[0].indication.unit
    own, whole = (small(each.standard_deviation, unit) for each in spreads_of(body))
    before = small(asking.hands.shop.state.instruments[body.instrument].body.repeatability, unit)
    return form.made(
        f"Take it over as the repeatability of {body.instrument}",
        [
            form.pick(
                "which",
                "What one reading is uncertain by",
                [
                    (OWN, f"{own}: one person"),
                    (WHOLE, f"{whole}: whoever reads"),
                ],
                WHOLE,
            ),
            form.text("reason", "Why", hint="in a few words", required=True),
        ],
        intro=f"Now it counts with {before}. Every reading ever taken with it counts with the new figure "
        "from then on.",
        button="Take it over",
    )


def _take_over(order: Order) -> Made:
    shop = order.hands.shop.state
    held = shop.studies.get(order.code)
    if held is None:
        raise UnclearFormError(f"No study {order.code}", "choose one of those listed")
    if order.person is None:
        raise UnclearFormError("Nobody says so", "say who takes it over")
    own, whole = spreads_of(held.body)
    taken = whole if order.sent.get("which") == WHOLE else own
    size, freedom = taken.standard_deviation, taken.degrees_of_freedom
    reason = order.sent.get("reason")
    body = with_repeatability(shop, order.code, size, freedom, reason=reason)
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    link = Link(f"Open {body.code}", thing_address("instruments", body.code))
    return Made([entry], f"{body.code} now counts with {small(size, body.unit)} a reading.", lambda: (link,))


ROUTES = [shop_route("/shop/studies/{code:path}", "study", _study, {"take-over": _take_over})]
