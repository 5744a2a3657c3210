"""The page of a tightening group: its bolt pattern, the pass in hand, each fastener, what it comes to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar, Final

from markupsafe import Markup

from fitwright.assess.assembly.results import GroupStanding
from fitwright.bench.new_sets import takes_new_sets
from fitwright.bench.tightened import entered_twice
from fitwright.data.cautions import Caution
from fitwright.drawing.marks import mark_drawing
from fitwright.model.fastener import readable_names
from fitwright.records import kinds
from fitwright.web.addresses import assembly_address, enter_assembly_address
from fitwright.web.entering.asked import from_address
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import Forms
from fitwright.web.frame import Frame, frame_of
from fitwright.web.numbers import whole_number
from fitwright.web.pages.assembly.fastener_lines import FastenerLine, fastener_lines
from fitwright.web.pages.assembly.group_facts import (
    Figure,
    PreloadPart,
    WarmLine,
    cautions_here,
    dry_check,
    facts_of,
    intended_part,
    is_left_handed,
    warm_lines,
    warnings_of,
)
from fitwright.web.pages.assembly.of_groups import NEW_SET, OF_GROUPS
from fitwright.web.pages.assembly.of_steps import HEAT
from fitwright.web.pages.assembly.opened import Opened, sentence
from fitwright.web.pages.assembly.pictures import Pictures, pattern_pictures, stretch_pictures
from fitwright.web.pages.assembly.show import SCRIPTS, STYLES, FormOffer
from fitwright.web.pages.assembly.surroundings import group_verdict
from fitwright.web.pages.assembly.tighten_form import TightenForm, TightenState, tighten_form
from fitwright.web.pages.parts.happened import HistoryLine, history_line
from fitwright.web.people import person_at
from fitwright.web.visit import Visit
from fitwright.web.writing import Sent

GROUP_STYLES: Final = (*STYLES, "oil_pictures.css", "bolt_pattern.css", "measure.css", "group.css")
MOST_MISSING: Final = 4
"""So many things that a group wants are named above its list; all stand in the list."""
MOST_HAPPENED: Final = 20
"""So many entries are listed; all are on the page Record."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a tightening that was sent."""

    state: str
    title: str
    words: str
    undo: str
    token: str
    entry: str
    person: str


@dataclass(frozen=True, slots=True)
class GroupContext:
    """The page of a tightening group."""

    template: ClassVar[str] = "assembly/group.html"
    frame: Frame
    back: str
    paper: str
    title: str
    mark: Markup
    words: str
    facts: tuple[Figure, ...]
    left_hand: bool
    warnings: tuple[str, ...]
    dry: str
    cautions: tuple[Caution, ...]
    note: str
    offers: tuple[FormOffer, ...]
    outcome: Said | None
    entry: EntryForm | None
    came: Outcome | None
    pattern: Pictures
    form: TightenForm
    odd: tuple[Figure, ...]
    missing: tuple[str, ...]
    remarks: tuple[str, ...]
    fasteners: tuple[FastenerLine, ...]
    chart: Pictures | None
    intended: PreloadPart | None
    not_computed: str
    warm: tuple[WarmLine, ...]
    happened: tuple[HistoryLine, ...]


def _asked(visit: Visit) -> Sent:
    """What an address says of its group."""
    opened = Opened.of(visit)
    asked, group = from_address(visit), opened.group_asked(visit.named("group"))
    fields = {**asked.fields, "group": group.id}
    if asked.get("do") == NEW_SET.name and not takes_new_sets(opened.bench.sheet, group):
        del fields["do"]
    return Sent(fields, asked.lists)


def group_page(
    visit: Visit,
    said: Said | None = None,
    form: EntryForm | None = None,
    *,
    came: Outcome | None = None,
    state: TightenState | None = None,
    at: str | None = None,
) -> GroupContext:
    """The whole page, with a form open, or with what came of one."""
    asked = visit.request.query_params
    with visit.hands.shop.held():
        opened = Opened.of(visit)
        group = opened.group(visit.named("group"))
        state = state or TightenState(
            {"supersedes": asked.get("correct", "")} if asked.get("correct") else {}
        )
        chosen = asked.get("at", "") if at is None else at
        number = whole_number(state.get("number") or asked.get("pass", "")) or group.next_pass
        tighten = tighten_form(
            opened,
            group,
            state,
            at=chosen,
            number=number or max(len(group.passes), 1),
            person=person_at(visit.request, opened.bench.shop),
        )
        return replace(_context(opened, group, tighten, chosen, form), outcome=said, came=came)


def _context(
    opened: Opened, group: GroupStanding, tighten: TightenForm, at: str, form: EntryForm | None
) -> GroupContext:
    code, family, of_sheet = opened.code, opened.family, group.group
    called = readable_names(of_sheet)
    return GroupContext(
        frame=frame_of(
            opened.hands,
            group.title,
            "Assembly",
            build=code,
            family=family,
            help_page="assembly",
            styles=GROUP_STYLES,
            scripts=SCRIPTS,
        ),
        back=assembly_address(code, family),
        paper=assembly_address(code, family, group=group.id, rest="/paper"),
        title=group.title,
        mark=Markup(mark_drawing(group_verdict(group))),  # noqa: S704  (our own drawing)
        words=group.words,
        facts=facts_of(of_sheet, opened),
        left_hand=is_left_handed(of_sheet),
        warnings=warnings_of(of_sheet, opened),
        dry=dry_check(of_sheet, opened),
        cautions=cautions_here(of_sheet, opened.bench.sheet),
        note=of_sheet.note or "",
        offers=tuple(_offers(opened, group, form)),
        outcome=None,
        entry=form,
        came=None,
        pattern=pattern_pictures(opened, group, at),
        form=tighten,
        odd=tuple(Figure(called[each.id], each.odd or "") for each in group.odd),
        missing=_missing(group),
        remarks=tuple(map(sentence, (*group.remarks, *entered_twice(opened.bench, of_sheet)))),
        fasteners=fastener_lines(opened, group, at),
        chart=stretch_pictures(opened, group),
        intended=intended_part(opened, group),
        not_computed=group.not_computed or "",
        warm=warm_lines(opened, group),
        happened=_happened(opened, group),
    )


def _missing(group: GroupStanding) -> tuple[str, ...]:
    """What a group that was begun still wants, the first few of it."""
    if not group.started:
        return ()
    rest = len(group.missing) - MOST_MISSING
    more = (f"and {rest} more",) if rest > 0 else ()
    return (*group.missing[:MOST_MISSING], *more)


def _offers(opened: Opened, group: GroupStanding, form: EntryForm | None) -> Iterator[FormOffer]:
    offered = {
        HEAT.name: any(each.asks.after_heat for each in group.passes),
        NEW_SET.name: takes_new_sets(opened.bench.sheet, group.group),
    }
    for name, kind in OF_GROUPS.items():
        if kind.label and offered.get(name, True):
            address = opened.group_address(group.id, do=name)
            yield FormOffer(kind.label, address, form is not None and form.name == name)


def _happened(opened: Opened, group: GroupStanding) -> tuple[HistoryLine, ...]:
    """What was recorded of this group, the last first."""
    of_group = (kinds.Tightening, kinds.TighteningCheck, kinds.Loosening)
    found = [
        entry
        for entry, body in reversed(opened.bench.build.ledger.recorded.values())
        if isinstance(body, of_group) and body.group == group.id
    ]
    return tuple(history_line(opened.bench, opened.family, each) for each in found[:MOST_HAPPENED])


OF_GROUP: Final = Forms(
    "Assembly", OF_GROUPS, assembly_address, enter_assembly_address, group_page, _asked, about="group"
)
"""The forms about one group."""
