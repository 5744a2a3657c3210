"""The sitting in one line, and what of it a tap can change."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.records.kinds import Instrument, Sitting
from fitwright.units import format_value
from fitwright.web.pages.measure.here import Here

MOST_SETTINGS = 12
"""So many settings of a gauge are offered, the last ones."""


@dataclass(frozen=True, slots=True)
class Choosable:
    """One line of a list."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Change:
    """One thing of the sitting that a tap changes: a list to choose from, or a text to type."""

    name: str
    label: str
    shown: str
    options: tuple[Choosable, ...]
    text: str
    hint: str
    words: bool = False


@dataclass(frozen=True, slots=True)
class SittingPart:
    """The sitting in one line; without one, the few questions that begin it."""

    action: str
    token: str
    code: str
    at: str
    way: str
    from_end: str
    nobody: bool
    line: str
    changes: tuple[Change, ...]
    wrong: str


def sitting_part(here: Here, *, wrong: str = "") -> SittingPart:
    """The line of the sitting at a place."""
    bench, sitting = here.bench, here.held
    stop = here.stop
    return SittingPart(
        action=f"/builds/{here.code}/measure/{here.station.id}/sitting?units={here.family}",
        token=here.hands.token.value,
        code=sitting.code if sitting is not None else "",
        at=f"{stop.dimension}|{stop.place}" if stop is not None else "",
        way=here.way,
        from_end="end" if here.from_the_end else "",
        nobody=not bench.shop.people,
        line=_line(bench, sitting),
        changes=tuple(_changes(here, sitting)),
        wrong=wrong,
    )


def _line(bench: Bench, sitting: Sitting | None) -> str:
    if sitting is None:
        return ""
    who = _name(bench, sitting.measured_by)
    typed = sitting.typed_by
    return f"{who} measures" + (
        f", {_name(bench, typed)} types" if typed not in (None, sitting.measured_by) else ""
    )


def _name(bench: Bench, code: str | None) -> str:
    held = bench.shop.people.get(code or "")
    return held.body.name if held is not None else code or ""


def _changes(here: Here, sitting: Sitting | None) -> Iterator[Change]:
    bench = here.bench
    alone = next(iter(bench.shop.people)) if len(bench.shop.people) == 1 else None
    measured_by = sitting.measured_by if sitting is not None else alone
    yield Change("measured_by", "Who measures", "", _people(bench, measured_by), "", "")
    typed_by = (sitting.typed_by or sitting.measured_by) if sitting is not None else alone
    yield Change("typed_by", "Who types", "", _people(bench, typed_by), "", "")
    warm = _temperature(here, sitting.temperature if sitting is not None else 293.15)
    own, other = ("°F", "°C") if bench.sheet.engine.unit_family == "inch" else ("°C", "°F")
    hint = f"in {own}, or {other} if you say so"
    yield Change("temperature", "Room and gauges", warm, (), warm, hint)
    yield from _part_temperature(here, sitting)
    for kind in _kinds(here):
        yield from _gauge(here, sitting, kind)
    if sitting is not None:
        lies, stands = sitting.attitude or "", sitting.crank or ""
        hint = "upright, sump up on the stand, nose down; empty: not said"
        yield Change("attitude", "Engine lies", lies or "not said", (), lies, hint, words=True)
        hint = "at rest in its bearings, lifted, at 90° after the top of cylinder 1; empty: not said"
        yield Change("crank", "Crank", stands or "not said", (), stands, hint, words=True)


def _part_temperature(here: Here, sitting: Sitting | None) -> Iterator[Change]:
    """How warm the part is that is measured here, where it is one part."""
    stop = here.stop
    part = here.bench.dimension(stop.dimension).part if stop is not None else None
    if part is None or part not in here.bench.sheet.parts:
        return
    held = sitting.part_temperatures.get(part) if sitting is not None else None
    shown = _temperature(here, held) if held is not None else "as the room"
    title = here.bench.sheet.parts[part].title
    yield Change(
        f"part:{part}", title, shown, (), shown if held else "", "its own temperature; empty: as the room"
    )


def _temperature(here: Here, kelvin: float) -> str:
    return format_value(kelvin, "degF" if here.family == "inch" else "degC", 1, dimension="temperature")


def _kinds(here: Here) -> list[str]:
    """The kinds of gauge that this place asks for; before there is a sitting, those of the station."""
    names = [here.stop.dimension] if here.stop is not None else []
    names += here.station.order if here.held is None else ()
    return list(dict.fromkeys(kind for name in names for kind in here.bench.dimension(name).instruments))


def _gauge(here: Here, sitting: Sitting | None, kind: str) -> Iterator[Change]:
    bench = here.bench
    chosen = sitting.instruments.get(kind) if sitting is not None else None
    gauges = [held.body for held in bench.shop.instruments.values() if held.body.type == kind]
    sets = [held.body for held in bench.shop.blade_sets.values() if (kind == "plug gauge") is held.body.plugs]
    sets = sets if kind in ("feeler blades", "plug gauge") else []
    named = {each.code: each.title for each in gauges} | {each.code: each.title for each in sets}
    options = [Choosable(code, f"{title} ({code})", code == chosen) for code, title in named.items()]
    if not options:
        return
    yield Change(f"gauge:{kind}", kind.capitalize(), chosen or "", tuple(options), "", "")
    gauge = next((each for each in gauges if each.code == chosen), gauges[0] if len(gauges) == 1 else None)
    if gauge is not None:
        yield from _setting(here, sitting, gauge)


def _setting(here: Here, sitting: Sitting | None, gauge: Instrument) -> Iterator[Change]:
    """What a gauge is set to, of its last settings."""
    own = [held.body for held in here.bench.shop.settings.values() if held.body.instrument == gauge.code]
    chosen = sitting.settings.get(gauge.code) if sitting is not None else None
    options = tuple(
        Choosable(
            each.code, f"{each.code} {each.size.typed if each.size else ''}".strip(), each.code == chosen
        )
        for each in reversed(own[-MOST_SETTINGS:])
    )
    if options:
        yield Change(f"setting:{gauge.code}", f"{gauge.code} set as", chosen or "", options, "", "")


def _people(bench: Bench, chosen: str | None) -> tuple[Choosable, ...]:
    return tuple(Choosable(code, held.body.name, code == chosen) for code, held in bench.shop.people.items())
