"""The cover: what it is, of which build, for whom, from which state of the record."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.results import Verdict
from fitwright.dossier.head import Head
from fitwright.dossier.sections.summary import CLAIMS, counts
from fitwright.dossier.sections.teller import Teller, counted, when
from fitwright.dossier.tree import Cover
from fitwright.drawing.qr import qr_drawing
from fitwright.drawing.sentences import summary_sentence


def cover(teller: Teller, head: Head) -> Cover:
    """The first page."""
    code = head.code(teller.known.build)
    return Cover(
        title=title_of(teller),
        subtitle=_subtitle(teller),
        standing=_standing(teller),
        facts=tuple(_facts(teller, head)),
        owner_words=teller.known.started.owner_words or "",
        summary=summary_sentence(teller.known.assessment),
        counts=tuple(counts(teller)),
        says=CLAIMS,
        head=head.short,
        qr=qr_drawing(code, f"Code that says: {code}"),
        qr_alt=f"Code that says: {code}",
    )


def unfinished(teller: Teller) -> bool:
    """Whether anything is open."""
    return bool(teller.standing.open_points)


def _unmeasured(teller: Teller) -> int:
    """How many critical fits, or critical sizes of the oil circuit, nobody measured."""
    found = teller.known.assessment.verdicts.values()
    fits = sum(each.limit_class == "critical" and each.verdict is Verdict.NOT_MEASURED for each in found)
    return fits + sum(each.critical for each in teller.known.oil.unmeasured)


def title_of(teller: Teller) -> str:
    """The engine's name stands in it only while nothing critical is unmeasured."""
    open_ = "dossier with open points" if unfinished(teller) else "dossier"
    name = teller.known.sheet.engine.name
    return f"Build {teller.known.build}: {open_}" if _unmeasured(teller) else f"{name}: {open_}"


def _subtitle(teller: Teller) -> str:
    count = _unmeasured(teller)
    if count:
        return f"{counted(count, 'critical size or fit is', 'critical sizes or fits are')} not measured"
    return teller.known.started.title


def _standing(teller: Teller) -> str:
    count = len(teller.standing.open_points)
    open_ = f"{counted(count, 'open point', 'open points')}" if count else "no open points"
    if teller.asked.revision is None:
        return f"Draft, not handed over; {open_}"
    before = teller.known.state.work.dossiers
    replaces = f", replaces revision {before[-1].body.revision}" if before else ""
    return f"Revision {teller.asked.revision}{replaces}; {open_}"


def _facts(teller: Teller, head: Head) -> Iterator[tuple[str, str]]:
    started, shop = teller.known.started, teller.known.shop.shop_setting("name")
    if shop:
        yield "Shop", shop
    yield "Build", f"{teller.known.build}, {started.title}"
    if started.job_number:
        yield "Job", started.job_number
    if started.engine_number:
        yield "Engine number", started.engine_number
    if started.duty:
        yield "Duty", started.duty
    sheet = teller.known.sheet.engine
    yield "Engine sheet", f"{sheet.id}, revision {sheet.revision}"
    yield "As of", f"{when(teller.known.as_of)} UTC, record up to {head.short}"
    yield (
        "Document",
        "complete" if teller.complete else "for the owner; the complete dossier holds every reading",
    )
