"""The dossiers handed over: what went out when, and the form by which the next one does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.bench.signing import DOSSIER
from fitwright.dossier.asked import PAPERS
from fitwright.records.kinds import DossierWritten
from fitwright.records.projection import Recorded
from fitwright.units.families import Family
from fitwright.web.addresses import dossier_address, record_address
from fitwright.web.entering.controls import Asking, Control, one
from fitwright.web.entering.kinds import FormKind
from fitwright.web.hands import Hands
from fitwright.web.pages.dossier.papers import DEPTH_WORDS
from fitwright.web.pages.dossier.signing import came_after
from fitwright.web.whose import when_written, who_wrote


@dataclass(frozen=True, slots=True)
class HandedLine:
    """A dossier that was handed over: from which state of the record, what came since."""

    revision: int
    depth: str
    when: str
    who: str
    speaks_for: str
    head: str
    digest: str
    replaced_by: str
    after: str
    after_address: str
    seq: int
    record: str
    address: str


def handed_lines(hands: Hands, code: str, family: Family) -> tuple[HandedLine, ...]:
    """Every one, the last first."""
    return tuple(_lines(hands, code, family))


def _lines(hands: Hands, code: str, family: Family) -> Iterator[HandedLine]:
    found = hands.shop.bench(code).build.work.dossiers
    for index in range(len(found) - 1, -1, -1):
        later = found[index + 1 :]
        yield _line(hands, code, family, found[index], later[0].body.revision if later else None)


def _line(
    hands: Hands, code: str, family: Family, held: Recorded[DossierWritten], replaced_by: int | None
) -> HandedLine:
    body, shop = held.body, hands.shop.state
    return HandedLine(
        revision=body.revision,
        depth=f"{DEPTH_WORDS[body.depth]}, {body.paper}",
        when=when_written(shop, held.entry),
        who=who_wrote(shop, held.entry),
        speaks_for=f"the record up to entry {body.seq}",
        head=body.hash,
        digest=body.data_digest,
        replaced_by=f"replaced by revision {replaced_by}" if replaced_by is not None else "",
        after=came_after(hands.shop.record, code, body.seq),
        after_address=record_address(code, {"after": body.seq}),
        seq=held.entry.seq,
        record=record_address(code, entry=held.entry.seq),
        address=dossier_address(
            code, family, "/file", depth=body.depth, paper=body.paper, revision=str(body.revision)
        ),
    )


def _controls(_asking: Asking) -> tuple[Control, ...]:
    return (
        one(_asking, "depth", "Which", {str(each): label for each, label in DEPTH_WORDS.items()}),
        one(_asking, "paper", "Paper", {each: each for each in PAPERS}),
    )


def _lead(asking: Asking) -> str:
    work = asking.bench.build.work
    before = work.dossiers[-1].body.revision if work.dossiers else 0
    open_points = len(asking.standing().open_points)
    replaces = f", and replaces revision {before}" if before else ""
    signed = any(each.body.subject == DOSSIER for each in work.signatures)
    notes = [
        f"It goes out as revision {before + 1}{replaces}.",
        f"{open_points} open points stand in it in full view." if open_points else "",
        "" if signed else "Nobody has signed it.",
    ]
    return " ".join(each for each in notes if each)


HAND_OVER = FormKind(
    "hand-over",
    "Hand it over",
    "Hand the dossier over",
    "Hand it over",
    _controls,
    lead=_lead,
    caution=lambda _: (
        "It says what was recorded, never that an engine is good. Installation and release to service belong "
        "to whoever is licensed or certified for it where the law says so."
    ),
    suppose=None,
)
