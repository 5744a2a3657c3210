"""A build as large as the figures to reach speak of: about 250 fits and 2,000 readings.

The Corrie Five with seven cylinders and eight mains, the readings of the
first ones read again on those added, and values repeated until there are enough (a blade that went is
not tried again).
"""

from __future__ import annotations

import re
import uuid
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from fitwright.assess.assessment import assess
from fitwright.examples import record_entries, sheet_text
from fitwright.formats.carrying import Arrival
from fitwright.formats.sheet import read_sheet
from fitwright.model.sheet import Sheet
from fitwright.records.entry import NewEntry
from fitwright.records.projection import BuildState, ShopState
from fitwright.wiring import Shop, open_shop
from tests.support.record import sealed_chain

CODE = "large"
READINGS = 2_000
_PATTERNS = {
    "columns = 5": "columns = 7",
    "columns = 6": "columns = 8",
    "{3,4,2,5,1,6}": "{4,5,3,6,2,7,1,8}",
    "stud.{1..12}": "stud.{1..16}",
}
"""Fasteners that come with what is added: their rows, the order of the main caps, the studs of the head."""
_SPACE = uuid.UUID("7b6f6c1e-0d0f-4f0c-9a36-1d6b6f0b2a10")


def large_shop(folder: Path) -> Shop:
    """A shop with the large build, open."""
    shop = open_shop(folder)
    text = large_sheet()
    digest = shop.record.keep_sheet(text)
    sheet = read_sheet(text)
    entries = list(_entries(sheet, digest))
    left = READINGS - sum(each.kind == "reading" for each in entries)
    assembled = next((at for at, each in enumerate(entries) if each.kind == "step done"), len(entries))
    measured = entries[:assembled]  # one measures before one assembles
    all_of_it = (*measured, *_repeats(sheet, measured, left), *entries[assembled:])
    shop.take_in(Arrival(CODE, all_of_it, already=0, sheets={}))  # its steps are taken as they are
    return shop


def readings_again(shop: Shop) -> list[dict[str, str]]:
    """Forms that read again what counts, each at a place of its own, as a browser would send them."""
    known, subjects = shop.bench(CODE).build.readings, shop.assessor(CODE).judge.subjects
    found: dict[str, dict[str, str]] = {}
    for subject, verdict in shop.assessment(CODE).verdicts.items():
        for name in verdict.readings:
            body = known[name].entry.body
            if (
                body["observation"]["type"] != "value"
                or body["dimension"] not in subjects[subject].dimensions()
            ):
                continue
            place = f"{body['dimension']}|{body['place']}"
            value = body["observation"]["value"]
            found.setdefault(
                place,
                {
                    "subject": subject,
                    "place": place,
                    "station": shop.bench(CODE).sheet.dimensions[body["dimension"]].station or "",
                    "sitting": body["sitting"] or "",
                    "value": f"{value['typed']} {value['unit']}"
                    if value["unit"] not in value["typed"]
                    else value["typed"],
                    "instrument": body["observation"].get("instrument") or "",
                    "setting": body["observation"].get("setting") or "",
                },
            )
    return list(found.values())


def _repeats(sheet: Sheet, entries: list[NewEntry], count: int) -> Iterator[NewEntry]:
    """So many values that count, read again with the same result."""
    chain = sealed_chain(entries)
    build = BuildState.replay(CODE, chain)
    found = assess(sheet, ShopState.replay(chain), build)
    used = {name for each in found.verdicts.values() for name in each.readings}
    counting = [
        held.entry
        for name, held in build.readings.items()
        if name in used and held.entry.body["observation"]["type"] == "value"
    ]
    for number in range(count):
        entry = counting[number % len(counting)]
        yield NewEntry(
            id=uuid.uuid5(_SPACE, f"again {number} {entry.id}").hex,
            build=CODE,
            kind=entry.kind,
            body=entry.body,
            person=entry.person,
        )


def large_sheet() -> str:
    """The Corrie Five's sheet with two cylinders and two mains more."""
    text = sheet_text("corrie-five").replace("{1..6}", "{1..8}").replace("{1..5}", "{1..7}")
    text = re.sub(r"(?m)^cylinders = 5$", "cylinders = 7", text)
    text = re.sub(r"(?m)^mains = 6$", "mains = 8", text)
    text = re.sub(r'(?m)^firing_order = ".*"$', 'firing_order = "1-3-5-7-2-4-6"', text)
    for few, many in _PATTERNS.items():
        text = text.replace(few, many)
    return text + "".join(_galleries())


def _galleries() -> Iterator[str]:
    """The pieces of the oil galleries that lead to what was added."""
    for start in (6, 7):
        yield _piece(f"gallery_{start}", "Main gallery", "gallery", start, "12 mm")
        cams = f'"cam.{{inlet,exhaust}}.gallery_{start}"'
        yield _piece(cams, "Cam gallery, {}", "cam.{}", start, "8 mm")


def _piece(name: str, title: str, node: str, start: int, bore: str) -> str:
    return f"""
[circuit.paths.{name}]
title = "{title}, {start} to {start + 1}"
kind = "drilling"
from = "{node}.{start}"
to = "{node}.{start + 1}"
diameter = "{bore}"
length = "84 mm"
"""


def _entries(sheet: Sheet, digest: str) -> Iterator[NewEntry]:
    for number, raw in enumerate(record_entries("corrie-five")):
        entry = NewEntry(**raw)
        if entry.build is not None:
            entry = replace(entry, build=CODE)
        if entry.kind == "build started":
            entry = replace(entry, body=dict(entry.body) | {"code": CODE, "sheet": digest})
        yield entry
        if entry.kind in ("reading", "stated size"):
            yield from _on_those_added(sheet, entry, number)


def _on_those_added(sheet: Sheet, entry: NewEntry, number: int) -> Iterator[NewEntry]:
    """The same on the members of its family that the five-cylinder engine has not."""
    body = entry.body
    for added in (6, 7, 8):
        name = _renumbered(body["dimension"] or "", added)
        if name == body["dimension"] or name not in sheet.dimensions or name in _FIVE:
            continue
        members = {_renumbered(position, added): part for position, part in body["members"].items()}
        added_body = dict(body) | {
            "dimension": name,
            "feature": sheet.dimensions[name].feature,
            "members": {at: part if at in body["members"] else at for at, part in members.items()},
        }
        yield replace(entry, id=uuid.uuid5(_SPACE, f"{number} {name}").hex, body=added_body)


def _renumbered(name: str, number: int) -> str:
    """A name of the first member of a family as that of another member."""
    return re.sub(r"(^|\.)1(?=\.|$)", rf"\g<1>{number}", name, count=1)


_FIVE = frozenset(read_sheet(sheet_text("corrie-five")).dimensions)
