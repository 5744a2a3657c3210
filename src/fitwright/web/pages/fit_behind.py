"""What stands behind a verdict, and what follows: curve, routes, what would settle it, its sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from fitwright import __version__
from fitwright.assess.assessment import Assessor
from fitwright.assess.distribution import Spreads, spreads_of
from fitwright.assess.evidence import members_of
from fitwright.assess.results import FitVerdict, RouteVerdict, Verdict
from fitwright.assess.settling import Settling
from fitwright.drawing.distribution import (
    chance,
    distribution_picture,
    distribution_sentences,
)
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_scale import limit_scale
from fitwright.drawing.marks import mark_drawing
from fitwright.drawing.sentences import coarse_set_sentences
from fitwright.model.sheet import Sheet
from fitwright.physics.metrology.settling import Means, Proposal
from fitwright.web.addresses import fit_address, photo_address
from fitwright.web.hands import Hands, View
from fitwright.web.whose import when_written, who_wrote


@dataclass(frozen=True, slots=True)
class Curve:
    """What is known of the fit as a picture, in words, and of which places it is."""

    picture: Markup
    words: tuple[str, ...]
    places: str


@dataclass(frozen=True, slots=True)
class RoutePart:
    """One of two routes: its value on the limit scale."""

    name: str
    governs: bool
    value: str
    places: str
    picture: Markup


@dataclass(frozen=True, slots=True)
class Routes:
    """Two routes beside each other, and whether they agree."""

    each: tuple[RoutePart, ...]
    words: str
    difference: str
    agree: bool


@dataclass(frozen=True, slots=True)
class ProposalRow:
    """One thing to try, and how likely it is to settle the fit either way."""

    what: str
    settles: str
    within: str
    outside: str
    assumed: bool


@dataclass(frozen=True, slots=True)
class Settle:
    """What would settle the fit: single readings, or something else; what on the shelf cannot."""

    words: str
    side: str
    rows: tuple[ProposalRow, ...]
    too_coarse: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fed:
    """Another fit that the same dimensions feed, as it stands."""

    name: str
    address: str
    words: str
    mark: Markup


@dataclass(frozen=True, slots=True)
class NoteAbout:
    """A note filed under the fit, one of its dimensions or parts."""

    about: str
    text: str
    who: str
    when: str


@dataclass(frozen=True, slots=True)
class PhotoAbout:
    """A photo filed there."""

    address: str
    small: str
    shows: str


@dataclass(frozen=True, slots=True)
class Provenance:
    """From what the verdict was made: sheet, entries, program."""

    sheet: str
    digest: str
    head: int
    entries: int
    version: str


def curve_of(assessor: Assessor, found: FitVerdict, reader: Reader) -> Curve | None:
    """The distribution behind a verdict; None where there is none to draw."""
    spreads = spreads_of(assessor.judge, found)
    if spreads is None:
        return None
    return Curve(
        Markup(distribution_picture(found, spreads, reader)),  # noqa: S704
        tuple(distribution_sentences(found, spreads, reader)),
        _curve_places(assessor.judge.sheet, spreads),
    )


def _curve_places(sheet: Sheet, spreads: Spreads) -> str:
    """Which places the curves are of; nothing where it is all of them together."""
    found = [(" and ".join(each.sides), places_words(sheet, each.places)) for each in spreads.cold]
    if len(found) == 1:
        return found[0][1]
    return "; ".join(f"{sides} limit {places}" for sides, places in found if places)


MOST_PLACES = 4
"""Of more places together nobody wants the list: it is in the working."""


def places_words(sheet: Sheet, places: tuple[str, ...]) -> str:
    """A combination of places by the titles of their dimensions."""
    if len(places) > MOST_PLACES:
        return ""
    words = []
    for key in places:
        name, _, place = key.partition(" @ ")
        title = sheet.dimensions[name].title if name in sheet.dimensions else name
        words.append(title if place == "whole" else f"{title} {place.replace('/', ' ')}")
    return " with ".join(words)


def routes_of(sheet: Sheet, found: FitVerdict, reader: Reader) -> Routes | None:
    """Both routes of a fit that has two; None where it has one."""
    if len(found.routes) < 2:
        return None
    comparison = found.comparison
    return Routes(
        each=tuple(_route(sheet, found, each, reader) for each in found.routes),
        words=comparison.words if comparison is not None else "only one of the two routes has a value",
        difference=_difference(found, reader),
        agree=comparison is None or comparison.agree,
    )


def _difference(found: FitVerdict, reader: Reader) -> str:
    if found.comparison is None:
        return ""
    size = reader.amount(found, found.comparison.difference, 1e-7)
    spread = reader.amount(found, found.comparison.standard_uncertainty, 1e-7)
    return f"{size} (u {spread})"


def _route(sheet: Sheet, found: FitVerdict, route: RouteVerdict, reader: Reader) -> RoutePart:
    result = route.result
    if result is None:
        names = [sheet.dimensions[each].title for each in route.missing]
        missing = f"not known: {', '.join(names)}" if names else "no value"
        verdict = Verdict.NOT_MEASURED
        alone = replace(found, verdict=verdict, value=None, interval=(None, None), words=missing)
        picture = Markup(limit_scale(alone, reader))  # noqa: S704
        return RoutePart(route.name, route.governs, missing, "", picture)
    alone = replace(
        found,
        verdict=Verdict(result.verdict.value.replace(" ", "-")),
        value=result.value,
        standard_uncertainty=result.standard_uncertainty,
        interval=result.interval,
        words=f"{route.name}: {result.verdict.value}",
        bounds=tuple(replace(each, value=None) for each in found.bounds),
    )
    return RoutePart(
        name=route.name,
        governs=route.governs,
        value=reader.value(alone),
        places=places_words(sheet, result.places),
        picture=Markup(limit_scale(alone, reader)),  # noqa: S704
    )


def settle_of(found: FitVerdict, settling: Settling | None, reader: Reader) -> Settle | None:
    """What would settle an open fit; None where nothing is open."""
    if settling is None:
        return None
    return Settle(
        words="" if settling.proposals else settling.words(),
        side=settling.side or "",
        rows=tuple(map(_proposal, settling.proposals)),
        too_coarse=tuple(coarse_set_sentences(found, settling, reader)),
    )


def _proposal(each: Proposal) -> ProposalRow:
    if each.means is Means.GAUGE:
        times = "once" if each.repeats == 1 else f"{each.repeats} times"
        what = f"read {times} with {each.gauge}"
    else:
        what = f"try {' + '.join(blade.key for blade in each.blades)}"
    return ProposalRow(what, chance(each.settles), chance(each.within), chance(each.outside), each.is_assumed)


def fed_by_the_same(hands: Hands, view: View, found: FitVerdict) -> Iterator[Fed]:
    """The other fits that rest on any of the same dimensions."""
    assessor = hands.shop.assessor(view.code, view.state)
    own = set(assessor.judge.subjects[found.id].dimensions())
    for name, subject in assessor.judge.subjects.items():
        if name != found.id and not own.isdisjoint(subject.dimensions()):
            each = assessor.verdict(name)
            mark = Markup(mark_drawing(each.verdict))  # noqa: S704
            yield Fed(each.name, fit_address(view.code, name, view.state, view.family), each.words, mark)


def filed_under(
    hands: Hands, view: View, found: FitVerdict
) -> tuple[tuple[NoteAbout, ...], tuple[PhotoAbout, ...]]:
    """Notes and photos about the fit, its dimensions, or the positions and parts that these are of."""
    bench = hands.shop.bench(view.code)
    sheet, build = bench.sheet, bench.build
    names = hands.shop.assessor(view.code, view.state).judge.subjects[found.id].dimensions()
    positions = {each.position for name in names for each in members_of(sheet, sheet.dimensions[name])}
    parts = {part for each in positions if (part := build.occupant(each)) is not None}
    wanted = {found.id, *names, *positions, *parts}
    notes = tuple(
        NoteAbout(
            body.subject or "", body.text, who_wrote(bench.shop, entry), when_written(bench.shop, entry)
        )
        for entry, body in build.notes
        if body.subject in wanted
    )
    photos = tuple(
        PhotoAbout(
            photo_address(view.code, body.digest),
            photo_address(view.code, body.digest, small=True),
            body.caption or body.subject or "photo",
        )
        for _, body in build.photos
        if body.subject in wanted
    )
    return notes, photos


def provenance_of(hands: Hands, view: View, found: FitVerdict) -> Provenance:
    """From what a verdict was made."""
    bench = hands.shop.bench(view.code)
    engine = bench.sheet.engine
    return Provenance(
        sheet=f"{engine.id} revision {engine.revision}",
        digest=bench.sheet.digest[:16],
        head=bench.build.seq,
        entries=len(found.readings),
        version=__version__,
    )
