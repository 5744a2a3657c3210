"""The head of a paper that is typed in: who, when, how warm, with which gauges in which settings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from fitwright.bench.context import Bench
from fitwright.bench.paper import TRIED
from fitwright.bench.sittings import sitting_from
from fitwright.records.kinds import Sitting
from fitwright.web.forms import Option
from fitwright.web.paper_tables import setting_words

GAUGE, SET = "gauge:", "setting:"
"""Begin the names of the fields that say which gauge of a kind was used, and what it was set to."""
PLUGS: Final = "plug gauge"


@dataclass(frozen=True, slots=True)
class GaugeChoice:
    """Which gauge of a kind the paper names, and in which setting."""

    kind: str
    name: str
    gauges: tuple[Option, ...]
    setting_name: str
    settings: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class HeadPart:
    """What stands at the top of the paper, as far as it is typed in."""

    people: tuple[Option, ...]
    typists: tuple[Option, ...]
    sittings: tuple[Option, ...]
    new_sitting: bool
    taken_on: str
    taken_time: str
    temperature: str
    gauges: tuple[GaugeChoice, ...]
    note: str
    photo: str


def head_part(
    bench: Bench, kinds: Iterable[str], fields: Mapping[str, str], *, typist: str | None, sitting: str
) -> HeadPart:
    """The head as typed so far; `sitting` is the one that the readings of this paper go into."""
    return HeadPart(
        people=_people(bench, fields.get("measured_by", "")),
        typists=_people(bench, fields.get("person") or typist or ""),
        sittings=tuple(_sittings(bench, sitting)),
        new_sitting=not sitting,
        taken_on=fields.get("taken_on", ""),
        taken_time=fields.get("taken_time", ""),
        temperature=fields.get("temperature") or _usual(bench),
        gauges=tuple(_gauges(bench, kinds, fields)) if not sitting else (),
        note=fields.get("note", ""),
        photo=fields.get("photo_kept", ""),
    )


def sitting_on_paper(bench: Bench, kinds: Iterable[str], fields: Mapping[str, str]) -> Sitting:
    """The sitting that the head of a paper describes.

    Raises
    ------
    BenchError
        If a setting is of another gauge, or nobody is said to have measured.
    QuantityError
        If the temperature is none.
    """
    gauges = {kind: fields.get(f"{GAUGE}{kind}", "") for kind in kinds}
    settings = {code: fields.get(f"{SET}{kind}", "") for kind, code in gauges.items() if code}
    return sitting_from(
        bench,
        measured_by=fields.get("measured_by") or None,
        typed_by=fields.get("person") or None,
        temperature=fields.get("temperature") or "20 degC",
        instruments={kind: code for kind, code in gauges.items() if code},
        settings={code: setting for code, setting in settings.items() if setting},
        words=fields.get("note") or None,
    )


def _usual(bench: Bench) -> str:
    """The temperature that sizes are stated at, in the unit of the build."""
    return "68 °F" if bench.sheet.engine.unit_family == "inch" else "20 °C"


def _people(bench: Bench, chosen: str) -> tuple[Option, ...]:
    return tuple(Option(code, held.body.name, code == chosen) for code, held in bench.shop.people.items())


def _sittings(bench: Bench, chosen: str) -> Iterator[Option]:
    for code, held in reversed(bench.build.sittings.items()):
        people = bench.shop.people.get(held.body.measured_by)
        who = people.body.name if people is not None else held.body.measured_by
        yield Option(code, f"{code}: {who} measured", code == chosen)


def _gauges(bench: Bench, kinds: Iterable[str], fields: Mapping[str, str]) -> Iterator[GaugeChoice]:
    for kind in kinds:
        known = _of_kind(bench, kind)
        if not known:
            continue
        chosen = fields.get(f"{GAUGE}{kind}", next(iter(known)) if len(known) == 1 else "")
        gauges = tuple(Option(code, f"{title} ({code})", code == chosen) for code, title in known.items())
        own = [held.body for held in bench.shop.settings.values() if held.body.instrument in known]
        setting = fields.get(f"{SET}{kind}", "")
        settings = tuple(
            Option(each.code, setting_words(each), each.code == setting) for each in reversed(own)
        )
        yield GaugeChoice(kind, f"{GAUGE}{kind}", gauges, f"{SET}{kind}", settings)


def _of_kind(bench: Bench, kind: str) -> dict[str, str]:
    """Gauges of a kind on the shelf, or sets of what is tried; code -> title."""
    shop = bench.shop
    found = {held.body.code: held.body.title for held in shop.instruments.values() if held.body.type == kind}
    if kind in TRIED:
        sets = [held.body for held in shop.blade_sets.values() if held.body.plugs is (kind == PLUGS)]
        found |= {each.code: each.title for each in sets}
    return found
