"""The forms about rework: ordered, done, and what it feeds looked at again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from fitwright.assess.assembly.results import ReworkStanding
from fitwright.assess.results import State
from fitwright.assess.words import BEFORE_METAL
from fitwright.bench import reworking
from fitwright.bench.entry_words import title_of
from fitwright.bench.parts import dimensions_of, known_parts, position_of
from fitwright.bench.reworking import OrderTyped
from fitwright.bench.together import ids_from
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.units.families import shop_unit
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.addresses import fit_address
from fitwright.web.entering.controls import (
    Asking,
    ChoiceRow,
    Control,
    amount,
    hidden,
    one,
    options,
    parts_to_choose,
    select,
    words,
)
from fitwright.web.entering.effects import EffectPoint, Effects, verdict_words
from fitwright.web.entering.kinds import FormKind
from fitwright.web.forms import Option
from fitwright.web.pages.parts.of_parts import CHANGES, preselected
from fitwright.web.writing import Sent, UnclearFormError


def _order_first(asking: Asking) -> tuple[Control, ...]:
    chosen = asking.get("part")
    concerned = tuple(_concerned(asking))
    groups = (*options("Of this fit", dict(concerned), {chosen}), *parts_to_choose(asking, chosen))
    return (hidden("subject", asking.get("subject")), select(asking, "part", "Part", groups))


def _concerned(asking: Asking) -> Iterator[tuple[str, str]]:
    """The parts whose own sizes make up the fit that one came from."""
    subject = asking.judge.subjects.get(asking.get("subject"))
    for name in subject.dimensions() if subject is not None else ():
        position = asking.bench.sheet.dimensions[name].part
        inside = asking.bench.build.occupant(position) if position is not None else None
        if position is not None and inside is not None:
            yield inside, title_of(asking.bench, position)


def _order_ready(asking: Asking) -> bool:
    return asking.get("part") in known_parts(asking.bench)


def _order_controls(asking: Asking) -> tuple[Control, ...]:
    return (
        hidden("part", asking.get("part")),
        hidden("subject", asking.get("subject")),
        hidden("sizes", "asked"),
        one(_rework_unless_said(asking), "change", "What is to be done", dict(CHANGES.items())),
        words(asking, "words", "In words", "What the machinist is to do, and how."),
        _sizes(asking),
        amount(asking, "target", "Target size", _unit(asking), "For one size. May stay empty."),
    )


def _rework_unless_said(asking: Asking) -> Asking:
    """Rework is what is ordered most; whoever wants something else says so."""
    if asking.get("change"):
        return asking
    return asking._replace(form=Sent({**asking.form.fields, "change": "rework"}, asking.form.lists))


def _sizes(asking: Asking) -> Control:
    """The sizes of the part; ticked are those that the work is most likely for."""
    at = position_of(asking.bench, asking.get("part")) or ""
    own = {each.id: each.title for each in dimensions_of(asking.bench, at) if each.part == at}
    through = {each.id: each.title for each in dimensions_of(asking.bench, at) if each.id not in own}
    ticked = _ticked(asking, at)
    groups = (
        *options("Its own sizes", own, ticked),
        *options("Sizes taken through it and others", through, ticked),
    )
    return Control("ticks", "dimension", "Sizes that are reworked", hint=_SIZES_HINT, groups=groups)


_SIZES_HINT = (
    "Once the work is done, what was read of these no longer counts, and all that they feed is listed."
)


def _ticked(asking: Asking, at: str) -> frozenset[str]:
    if asking.get("sizes"):
        return frozenset(asking.ticked("dimension"))
    own = {each.id for each in dimensions_of(asking.bench, at) if each.part == at}
    return frozenset(preselected(asking, at) & own)


def _unit(asking: Asking) -> str:
    """The unit of a target typed without one: that of the first size ticked."""
    at = position_of(asking.bench, asking.get("part")) or ""
    names = sorted(_ticked(asking, at)) or [each.id for each in dimensions_of(asking.bench, at)[:1]]
    found = asking.bench.sheet.dimensions.get(names[0]) if names else None
    if found is None:
        return shop_unit("length", asking.family)
    nominal = found.nominal.si if found.nominal is not None else 0.0
    return shop_unit(DIMENSION_OF[found.sense], asking.family, nominal)


def _order(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    change = next((each for each in CHANGES if each == asking.get("change")), None)
    if change is None:
        raise UnclearFormError("What is to be done is not chosen", "say rework, repair or replacement")
    typed = OrderTyped(
        part=asking.get("part"),
        dimensions=asking.ticked("dimension"),
        words=asking.get("words"),
        change=change,
        target=_target(asking),
        ordered_by=asking.get("person"),
    )
    return reworking.order_rework(asking.bench, typed, taking)


def _target(asking: Asking) -> str:
    """The target with the unit that the form shows, where none was typed."""
    typed = asking.get("target")
    return f"{typed} {_unit(asking)}" if typed and not any(each.isalpha() for each in typed) else typed


def _order_lead(asking: Asking) -> str:
    if not _order_ready(asking):
        return "Choose the part that is to be worked on."
    part = asking.get("part")
    at = position_of(asking.bench, part)
    where = title_of(asking.bench, at) if at and at != part else title_of(asking.bench, part)
    return f"{where}{f' ({part})' if where != part else ''}."


def _feeds(asking: Asking, entries: Sequence[NewEntry], *, done: bool, echo: str = "") -> Effects:
    """What else the sizes of an order feed, each to be looked at once the work is done."""
    names = entries[0].body["feeds"]
    points = tuple(_fed(asking, name) for name in names)
    count = "nothing else" if not points else "1 thing" if len(points) == 1 else f"{len(points)} things"
    after = ": look at each once the work is done" if points else ""
    return Effects(echo, f"What is reworked feeds {count}{after}.", (), "", done, points)


def _fed(asking: Asking, name: str) -> EffectPoint:
    if name not in asking.judge.subjects:
        return EffectPoint("", "", title_of(asking.bench, name))
    found = asking.assessor.verdict(name)
    address = fit_address(asking.code, name, State.CURRENT, asking.family)
    return EffectPoint(found.name, address, verdict_words(found))


def order_named(asking: Asking) -> ReworkStanding | None:
    """The order that is asked about."""
    wanted = asking.get("order")
    return next((each for each in asking.standing().reworks if each.code == wanted), None)


def _orders(asking: Asking) -> tuple[Control, ...]:
    names = {each.code: f"{each.code}, {each.part_title}" for each in asking.standing().reworks}
    return (select(asking, "order", "Which order", options("Orders", names, {asking.get("order")})),)


def _known_order(asking: Asking) -> bool:
    return order_named(asking) is not None


def _done(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    return reworking.rework_done(asking.bench, asking.get("order"), taking)


def _about_order(asking: Asking) -> str:
    found = order_named(asking)
    return f"{found.code}, {found.part_title}: {found.order_words}" if found is not None else ""


def _items(asking: Asking) -> tuple[Control, ...]:
    found = order_named(asking)
    rows = tuple(_rows(asking, found)) if found is not None else ()
    return (
        hidden("order", asking.get("order")),
        Control(
            "rows",
            "items",
            "What it feeds",
            hint="“Holds”: looked at, in order. “Put right”: mended too. “Not touched”: this work left it.",
            empty="It feeds nothing else.",
            rows=rows,
        ),
        words(asking, "words", "In words", "May stay empty."),
    )


def _rows(asking: Asking, found: ReworkStanding) -> Iterator[ChoiceRow]:
    for item in found.items:
        name = f"item:{item.item}"
        chosen = asking.get(name) or item.answer or ""
        answers = [*([] if item.answer else [""]), *reworking.ANSWERS]
        lines = tuple(Option(each, each or "not looked at", each == chosen) for each in answers)
        yield ChoiceRow(name, f"{item.title}: {item.verdict_words}", lines)


def _checked(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    found = order_named(asking)
    new = list(_answered(asking, found)) if found is not None else []
    if not new:
        raise UnclearFormError("Nothing new was answered", "choose an answer beside each thing looked at")
    bench, order = asking.bench, asking.get("order")
    ids = ids_from(taking.entry_id) if taking.entry_id is not None else iter(())
    taken = [
        reworking.rework_checked(
            bench, order, item, answer, replace(taking, entry_id=next(ids, None)), words=asking.get("words")
        )
        for item, answer in new
    ]
    entries = tuple(entry for each in taken for entry in each.entries)
    return WorkTaken(entries, taken[0].body, "; ".join(each.words for each in taken))


def _answered(asking: Asking, found: ReworkStanding) -> Iterator[tuple[str, str]]:
    """What was answered otherwise than it stands."""
    for item in found.items:
        answer = asking.get(f"item:{item.item}")
        if answer in reworking.ANSWERS and answer != item.answer:
            yield item.item, answer


ORDER = FormKind(
    "order",
    "Order a rework",
    "Order a rework",
    "Order it",
    _order_controls,
    first=_order_first,
    is_ready=_order_ready,
    lead=_order_lead,
    caution=lambda _: BEFORE_METAL,
    suppose=_feeds,
    ask="What else does it feed?",
    promise="Here it will say what else these sizes feed, before it is ordered.",
    take=_order,
)
DONE = FormKind(
    "done",
    "",
    "This rework is done",
    "It is done",
    lambda asking: (hidden("order", asking.get("order")),),
    first=_orders,
    is_ready=_known_order,
    lead=_about_order,
    caution=lambda _: (
        "Only once the work is done: from then on what was read of these sizes no longer counts."
    ),
    take=_done,
)
CHECKED = FormKind(
    "check",
    "",
    "What it feeds, looked at again",
    "Keep these answers",
    _items,
    first=_orders,
    is_ready=_known_order,
    lead=_about_order,
    suppose=None,
    take=_checked,
)
