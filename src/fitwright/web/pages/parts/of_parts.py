"""The forms about parts: swapped, fitted, taken out, entered, reworked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.assess.results import Verdict
from fitwright.assess.words import BEFORE_METAL
from fitwright.bench import parts
from fitwright.bench.entry_words import title_of
from fitwright.records.kinds import Body
from fitwright.web.entering.controls import (
    Asking,
    Control,
    SerialRow,
    hidden,
    one,
    options,
    parts_to_choose,
    positions,
    select,
    text,
    words,
)
from fitwright.web.entering.kinds import FormKind
from fitwright.web.writing import UnclearFormError

CHANGES: dict[parts.Change, str] = {"rework": "Rework", "repair": "Repair", "replacement": "Replacement"}
MOST_AT_ONCE = 150
"""So many parts are entered by one form; the rest by the next."""


def _swap_controls(asking: Asking) -> tuple[Control, ...]:
    one_, other = asking.get("one"), asking.get("other")
    return (
        select(asking, "one", "Part in", positions(asking, one_)),
        select(asking, "other", "Swap with part in", positions(asking, other, like=one_)),
        text(asking, "reason", "Why", hint="May stay empty."),
    )


def _swap(asking: Asking) -> Sequence[Body]:
    one_, other = asking.get("one"), asking.get("other")
    if not (one_ and other):
        raise UnclearFormError("Only one position is chosen", "choose the two whose parts change places")
    return _because(parts.swapped(asking.bench, one_, other), asking)


def _fit_controls(asking: Asking) -> tuple[Control, ...]:
    return (
        select(asking, "position", "Into position", positions(asking, asking.get("position"))),
        select(
            asking,
            "part",
            "Part",
            parts_to_choose(asking, asking.get("part")),
            hint="A part that is not entered yet: “Enter a part”, with its position.",
        ),
        words(asking, "words", "Why it replaces what sat there", _NUMBERED),
    )


_NUMBERED = "With words the replacement is numbered (R1, R2, …). May stay empty."


def _fit(asking: Asking) -> Sequence[Body]:
    part, position = asking.get("part"), asking.get("position")
    if not (part and position):
        raise UnclearFormError("Part or position is not chosen", "choose both")
    return parts.fitted(asking.bench, part, position, words=asking.get("words"))


def _out_controls(asking: Asking) -> tuple[Control, ...]:
    build = asking.bench.build
    occupied = positions(asking, asking.get("position"), wanted=lambda name: build.occupant(name) is not None)
    return (
        select(asking, "position", "Out of position", occupied),
        text(asking, "reason", "Why", hint="May stay empty."),
    )


def _out(asking: Asking) -> Sequence[Body]:
    if not asking.get("position"):
        raise UnclearFormError("No position is chosen", "choose the one whose part comes out")
    return _because((parts.taking_out_of(asking.bench, asking.get("position")),), asking)


def _part_controls(asking: Asking) -> tuple[Control, ...]:
    position = asking.get("position")
    shelf = "none yet: it lies on the shelf"
    return (
        select(asking, "position", "Position", positions(asking, position), empty=shelf),
        text(asking, "code", "Code", hint=_CODE_HINT),
        text(asking, "title", "What it is", hint="Empty: as the sheet calls the position."),
        text(asking, "serial", "Serial"),
        text(asking, "origin", "Where it comes from"),
        Control("tick", "used", "It is used: wear limits apply", asking.get("used")),
        words(asking, "words", "Why it replaces what sat there", _NUMBERED),
    )


_CODE_HINT = (
    "Empty: the part that sits there now, and its readings stay its own. A code of its own for another part."
)


def _part(asking: Asking) -> Sequence[Body]:
    bench, position = asking.bench, asking.get("position")
    body = parts.part_of(
        bench,
        code=asking.get("code"),
        title=asking.get("title"),
        position=position,
        serial=asking.get("serial"),
        used=bool(asking.get("used")),
        origin=asking.get("origin"),
    )
    return parts.put_new(bench, body, words=asking.get("words"))


def _serials_first(asking: Asking) -> tuple[Control, ...]:
    stations = {each.id: each.title for each in asking.bench.sheet.stations.values() if _at(asking, each.id)}
    return (select(asking, "station", "Parts of", options("Stations", stations, {asking.get("station")})),)


def _at(asking: Asking, station: str) -> tuple[str, ...]:
    """The positions whose own sizes are measured at a station, or taken through them there."""
    sheet = asking.bench.sheet
    found = station_of_positions(asking)
    return tuple(name for name in sheet.parts if found.get(name) == station)


def station_of_positions(asking: Asking) -> dict[str, str | None]:
    """At which station each position has its first size, its own before those taken through it."""
    found: dict[str, str | None] = {}
    for dimension in asking.bench.sheet.dimensions.values():
        if dimension.part is not None:
            found.setdefault(dimension.part, dimension.station)
    for dimension in asking.bench.sheet.dimensions.values():
        for name in dimension.through:
            if name in asking.bench.sheet.parts:
                found.setdefault(name, dimension.station)
    return found


def _serial_controls(asking: Asking) -> tuple[Control, ...]:
    rows = tuple(_serial_rows(asking))
    return (
        hidden("station", asking.get("station")),
        Control("serials", "serials", "Parts", hint=_CODE_HINT, serials=rows),
        text(asking, "origin", "Where all of these come from"),
        Control("tick", "used", "All of these are used: wear limits apply", asking.get("used")),
    )


def _serial_rows(asking: Asking) -> Iterator[SerialRow]:
    build = asking.bench.build
    for name in _at(asking, asking.get("station"))[:MOST_AT_ONCE]:
        held = build.parts.get(build.occupant(name) or "")
        yield SerialRow(
            name,
            asking.bench.sheet.parts[name].title,
            asking.get(f"code:{name}") or (held.body.code if held is not None else ""),
            asking.get(f"serial:{name}") or ((held.body.serial or "") if held is not None else ""),
        )


def _serials(asking: Asking) -> Sequence[Body]:
    found = tuple(_entered(asking))
    if not found:
        raise UnclearFormError("Nothing new was typed", "type a code or a serial beside a part")
    return found


def _entered(asking: Asking) -> Iterator[Body]:
    build = asking.bench.build
    for name in _at(asking, asking.get("station"))[:MOST_AT_ONCE]:
        code, serial = asking.get(f"code:{name}"), asking.get(f"serial:{name}")
        inside = build.parts.get(build.occupant(name) or "")
        known = (inside.body.code, inside.body.serial or "") if inside is not None else ("", "")
        if not (code or serial) or (code or known[0], serial) == known:
            continue
        same = inside.body if inside is not None and code in ("", inside.body.code) else None
        body = parts.part_of(
            asking.bench,
            code=code,
            title=same.title if same is not None else "",
            position=name,
            serial=serial,
            used=bool(asking.get("used")) or (same is not None and same.used),
            origin=asking.get("origin") or (same.origin if same is not None else None),
        )
        yield from parts.put_new(asking.bench, body)


def _rework_first(asking: Asking) -> tuple[Control, ...]:
    return (select(asking, "part", "Part", parts_to_choose(asking, asking.get("part"))),)


def _rework_ready(asking: Asking) -> bool:
    return asking.get("part") in parts.known_parts(asking.bench)


def _rework_controls(asking: Asking) -> tuple[Control, ...]:
    part = asking.get("part")
    at = parts.position_of(asking.bench, part)
    return (
        hidden("part", part),
        hidden("sizes", "asked"),
        one(asking, "change", "What was done to it", dict(CHANGES.items())),
        words(asking, "words", "In words", "What was done, from and to which size."),
        _sizes(asking, at or "", part),
    )


def _sizes(asking: Asking, at: str, part: str) -> Control:
    """The sizes that rest on a part; ticked are those whose readings the change retires."""
    names = (
        {each.id: each.title for each in parts.dimensions_of(asking.bench, at)}
        if at
        else _read_on(asking, part)
    )
    own = {name: title for name, title in names.items() if _is_own(asking, name, at)}
    through = {name: title for name, title in names.items() if name not in own}
    ticked = asking.ticked("dimension") if asking.get("sizes") else preselected(asking, at)
    groups = (
        *options("Its own sizes", own, ticked),
        *options("Sizes taken through it and others", through, ticked),
    )
    return Control("ticks", "dimension", "Readings that no longer count", hint=_TICK_HINT, groups=groups)


_TICK_HINT = (
    "Tick every size that the work touched: its readings stay visible and are no longer used. "
    "What is taken through a size that you tick goes with it. "
    "A replacement with nothing ticked retires all of them."
)


def _read_on(asking: Asking, part: str) -> dict[str, str]:
    """What was read on a part without a position, by feature."""
    found = [each for each in asking.bench.build.readings.values() if part in each.members.values()]
    names = dict.fromkeys(each.dimension for each in found if each.dimension in asking.bench.sheet.dimensions)
    return {name: asking.bench.sheet.dimensions[name].title for name in names if name is not None}


def _is_own(asking: Asking, name: str, at: str) -> bool:
    own = asking.bench.sheet.dimensions[name].part
    return own is not None and at in ("", own)


def preselected(asking: Asking, at: str) -> frozenset[str]:
    """What a change most likely touches: what is outside, or what makes up the fit that one came from."""
    bench, judge = asking.bench, asking.judge
    if not at:
        return frozenset()
    here = [each.id for each in parts.dimensions_of(bench, at)]
    own = [name for name in here if bench.sheet.dimensions[name].part == at]
    subject = judge.subjects.get(asking.get("subject"))
    if subject is not None:
        rests = {*subject.dimensions(), subject.id}
        found = {name for name in own if name in rests} or {name for name in here if name in rests}
    elif len(own) == 1:
        found = set(own)
    else:
        found = {name for name in own if _is_outside(asking, name)}
    return frozenset(found) | (parts.touched_with(bench, at, found) if found else frozenset())


def _is_outside(asking: Asking, name: str) -> bool:
    """Whether a size is outside its own limits: that is what one reworks."""
    return name in asking.judge.subjects and asking.assessor.verdict(name).verdict is Verdict.OUTSIDE


def _rework(asking: Asking) -> Sequence[Body]:
    names = asking.ticked("dimension")
    change = next((each for each in CHANGES if each == asking.get("change")), None)
    if change is None:
        raise UnclearFormError("What was done is not chosen", "say rework, repair or replacement")
    if not names and change != "replacement":
        raise UnclearFormError("No size is ticked", "tick every size that the work touched")
    return (parts.change_of(asking.bench, asking.get("part"), asking.get("words"), names, change=change),)


def _rework_lead(asking: Asking) -> str:
    if not _rework_ready(asking):
        return "Choose the part that was worked on."
    part = asking.get("part")
    at = parts.position_of(asking.bench, part)
    where = f"{title_of(asking.bench, at)} ({part})" if at and at != part else title_of(asking.bench, part)
    return f"{where}. In the record this work on it is called {parts.new_change_code(asking.bench)}."


def _because(bodies: Sequence[Body], asking: Asking) -> tuple[Body, ...]:
    """Entries with the reason that was typed."""
    reason = asking.get("reason") or None
    return tuple(body.model_copy(update={"reason": reason}) for body in bodies)


SWAP = FormKind(
    "swap",
    "Swap two parts",
    "Swap two parts",
    "Swap them",
    _swap_controls,
    _swap,
    lead=lambda _: (
        "Both are entered together, and are taken back together. Each part takes its own sizes along; "
        "what was read through a set of parts stays behind."
    ),
)
FIT = FormKind(
    "fit",
    "Fit a part",
    "Fit a part into a position",
    "It is fitted",
    _fit_controls,
    _fit,
    lead=lambda _: "Who sat there before is out.",
)
OUT = FormKind("out", "Take out", "Take a part out", "It is out", _out_controls, _out)
PART = FormKind("part", "Enter a part", "Enter a part", "Enter it", _part_controls, _part)
SERIALS = FormKind(
    "parts",
    "Enter the parts of a station",
    "Enter the parts of a station",
    "Enter these",
    _serial_controls,
    _serials,
    first=_serials_first,
    is_ready=lambda asking: asking.get("station") in asking.bench.sheet.stations,
    lead=lambda _: "Codes and serials for a whole station in one write; leave empty what you do not know.",
)
REWORK = FormKind(
    "rework",
    "Rework, repair, replacement",
    "Rework, repair or replacement",
    "Enter it",
    _rework_controls,
    _rework,
    first=_rework_first,
    is_ready=_rework_ready,
    lead=_rework_lead,
    caution=lambda _: BEFORE_METAL,
)
OF_PARTS = (SWAP, REWORK, FIT, OUT, PART, SERIALS)
