"""Where on the engine a station belongs: first by its own id and title, else by what is measured there."""

from __future__ import annotations

import re
from collections import Counter

from fitwright.drawing.engine_section.outline import Point
from fitwright.model.sheet import Sheet
from fitwright.model.station import Station

_WORDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"turbo|supercharger|ancillar|water pump|fuel|ignition|distributor", ()),
    (r"skew", ("pump_drive", "cam_drive")),
    (r"crank ?case|ports?\b|reed", ("port", "bulkhead")),
    (r"relief", ("relief", "pump")),
    (r"pump drive|pump on|pump.*crank|crank.*pump", ("pump_drive", "pump")),
    (r"pick ?up|strainer|sump", ("pickup", "sump")),
    (r"pump|stage|rotor|scavenge", ("pump",)),
    (r"rear seal|oil seal|\bseal", ("rear_seal", "seal_carrier")),
    (r"flywheel|clutch|rear end", ("flywheel", "rear_seal")),
    (r"damper|nose|pulley", ("damper", "nose")),
    (r"ends? of the crank|crank ends?", ("damper", "flywheel", "nose")),
    (r"cam(shaft)? drive|chain|belt|timing gear", ("cam_drive", "timing")),
    (r"timing", ("timing", "cam_drive", "cam")),
    (r"lash|tappet clearance", ("lash", "cam")),
    (r"rockers?|follower|tappet|bucket|valve gear|pushrod", ("follower", "rocker", "pushrod")),
    (r"camshaft|cams?\b", ("cam_bearing", "cam")),
    (r"springs?", ("spring",)),
    (r"guide", ("guide", "valve")),
    (r"seat", ("seat", "valve")),
    (r"valves?", ("valve",)),
    (r"chamber|head|gasket", ("chamber", "gasket")),
    (r"deck", ("deck", "gasket")),
    (r"squish|compression|trial", ("crown", "chamber")),
    (r"rings?\b", ("ring",)),
    (r"small ends?|piston pin", ("small_end", "piston_pin")),
    (r"big ends?|crankpin|rod bearing", ("big_end",)),
    (r"cylinder|bore|liner|barrel|honing", ("bore", "piston")),
    (r"piston", ("piston",)),
    (r"rods?\b", ("big_end", "rod")),
    (r"thrust|end float|crank in", ("thrust", "journal")),
    (r"tunnel|caps?\b|bulkhead|housing", ("cap", "bulkhead", "main")),
    (r"mains?\b", ("main",)),
    (r"crank|journal", ("web", "journal")),
    (r"gallery|oil way", ("bulkhead",)),
)
"""Words in an id or title, and the places that they mean, best first; none: the whole engine."""

_HEADS = {
    "main": ("main",),
    "main_tunnel": ("bulkhead", "main"),
    "thrust_bearing": ("thrust", "main"),
    "crank": ("web", "journal"),
    "rod": ("big_end", "rod"),
    "pin": ("big_end", "crankpin"),
    "piston": ("piston",),
    "piston_pin": ("small_end", "piston_pin"),
    "cylinder": ("bore",),
    "ring": ("ring",),
    "deck": ("deck",),
    "chamber": ("chamber",),
    "head_gasket": ("gasket",),
    "valve": ("valve",),
    "guide": ("guide",),
    "seat": ("seat",),
    "shim": ("lash",),
    "follower": ("follower",),
    "rocker": ("rocker", "follower"),
    "camshaft": ("cam_bearing", "cam"),
    "cam_drive": ("cam_drive",),
    "pump": ("pump",),
    "stage": ("pump",),
    "relief": ("relief", "pump"),
    "pickup": ("pickup",),
    "flywheel": ("flywheel",),
    "rear_seal": ("rear_seal",),
    "damper": ("damper", "nose"),
}
"""What the first word of a dimension's id means, where neither id nor title of the station says more."""

_NUMBERED = re.compile(r"(main|rod|pin|cylinder|piston|ring|piston_pin|valve)\D*?\.(\d+)(\.|$)")
_OWN_NUMBER = re.compile(r"(?:^|[ ._-])(\d+)(?:[ ._-]|$)")

Anchors = dict[str, dict[int, list[Point]]]


def place_of(station: Station, sheet: Sheet, anchors: Anchors) -> tuple[str | None, tuple[Point, ...]]:
    """The place of a station and its points in a view; none where the view does not show it."""
    for kind in _kinds(station, sheet):
        if kind in anchors:
            return kind, _points(anchors[kind], _number(station))
    return None, ()


def _kinds(station: Station, sheet: Sheet) -> tuple[str, ...]:
    for text in (station.id.replace("_", " ").replace(".", " "), station.title.lower()):
        for pattern, kinds in _WORDS:
            if re.search(rf"\b(?:{pattern})", text.lower()):
                return kinds
    heads = Counter(name.partition(".")[0] for name in _measured(station, sheet))
    return next((_HEADS[head] for head, _ in heads.most_common() if head in _HEADS), ())


def _measured(station: Station, sheet: Sheet) -> list[str]:
    return [*station.order, *(fit.id for fit in sheet.fits.values() if fit.station == station.id)]


def _number(station: Station) -> int | None:
    """Which of several a station is about, where it is about a single one."""
    own = _OWN_NUMBER.search(station.id) or _OWN_NUMBER.search(station.title)
    if own:
        return int(own[1])
    numbers = {found[2] for found in map(_NUMBERED.search, station.order) if found}
    return int(numbers.pop()) if len(numbers) == 1 else None


def _points(by_number: dict[int, list[Point]], number: int | None) -> tuple[Point, ...]:
    if number in by_number:
        return tuple(by_number[number])
    return tuple(point for points in by_number.values() for point in points)
