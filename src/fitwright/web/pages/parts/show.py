"""The page Parts: what changed since, which part sits where, what was said, photos, what happened."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from fitwright.units.families import Family
from fitwright.web.addresses import enter_address, parts_address, record_address
from fitwright.web.entering.asked import asking_of, from_address
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.entry_form import EntryForm, Said
from fitwright.web.entering.kinds import Forms
from fitwright.web.entering.offers import OfferRow, offered
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.parts.changed import ChangedLine, changed_lines
from fitwright.web.pages.parts.every import FORMS, OFFERED
from fitwright.web.pages.parts.happened import HistoryLine, history
from fitwright.web.pages.parts.pictures import NoteLine, PhotoLine, note_lines, photo_lines
from fitwright.web.pages.parts.positions import PositionGroup, PositionLine, position_groups, shelf_lines
from fitwright.web.pages.parts.said_so import EyeLine, SaidGroup, eye_lines, said_groups
from fitwright.web.visit import Visit
from fitwright.web.writing import Sent

LISTS: Final = {
    "": "What sits where",
    "said": "Said and decided",
    "photos": "Notes and photos",
    "entered": "What happened",
}
"""The lists of this page: what each is called in the address and on the page."""
MOST_ENTRIES: Final = 60
"""So many entries are listed; all are on the page Record."""


@dataclass(frozen=True, slots=True)
class PartsContext:
    """The page Parts."""

    template: ClassVar[str] = "parts/parts.html"
    frame: Frame
    offered: tuple[OfferRow, ...]
    outcome: Said | None
    entry: EntryForm | None
    lists: tuple[Choice, ...]
    shown: str
    changed: tuple[ChangedLine, ...]
    has_readings: bool
    stations: tuple[PositionGroup, ...]
    shelf: tuple[PositionLine, ...]
    eyes: tuple[EyeLine, ...]
    said_groups: tuple[SaidGroup, ...]
    notes: tuple[NoteLine, ...]
    photos: tuple[PhotoLine, ...]
    happened: tuple[HistoryLine, ...]
    record: str


def _asked(visit: Visit) -> Sent:
    """What an address says; `adopt=SUBJECT` opens the form that adopts a limit."""
    found = from_address(visit)
    subject = found.get("adopt")
    if not subject:
        return found
    return Sent({**found.fields, "do": "adopt", "subject": subject}, found.lists)


def parts_page(visit: Visit, said: Said | None, form: EntryForm | None) -> PartsContext:
    """The whole page, with a form open or what came of one."""
    with visit.hands.shop.held():
        return _context(visit.hands, asking_of(visit, _asked(visit)), said, form)


def _context(hands: Hands, asking: Asking, said: Said | None, form: EntryForm | None) -> PartsContext:
    bench, code, family = asking.bench, asking.code, asking.family
    shown = asking.get("list") if asking.get("list") in LISTS else ""
    return PartsContext(
        frame=_frame(hands, code, family),
        offered=offered(asking, OF_PARTS, OFFERED, form),
        outcome=said,
        entry=form,
        lists=tuple(_lists(asking, shown)),
        shown=shown,
        changed=changed_lines(hands.shop.assessor(code), code, family) if not shown else (),
        has_readings=any(each.effective for each in bench.build.readings.values()),
        stations=position_groups(asking) if not shown else (),
        shelf=shelf_lines(bench, code, family) if not shown else (),
        eyes=eye_lines(bench, family) if shown == "said" else (),
        said_groups=said_groups(bench, family) if shown == "said" else (),
        notes=note_lines(bench, family) if shown == "photos" else (),
        photos=photo_lines(bench, family) if shown == "photos" else (),
        happened=history(bench, family, lambda _: True, most=MOST_ENTRIES) if shown == "entered" else (),
        record=record_address(code),
    )


def _frame(hands: Hands, code: str, family: Family) -> Frame:
    return frame_of(
        hands,
        "Parts",
        "Parts",
        build=code,
        family=family,
        help_page="parts",
        styles=("entering.css", "photos.css", "parts.css"),
        scripts=("entering.js",),
    )


def _lists(asking: Asking, shown: str) -> Iterator[Choice]:
    for name, label in LISTS.items():
        yield Choice(label, parts_address(asking.code, asking.family, list=name), name == shown)


OF_PARTS: Final = Forms("Parts", FORMS, parts_address, enter_address, parts_page, _asked)
"""The forms of this page."""
