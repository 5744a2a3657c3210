"""One entry of the record in full: what it says, what became of it; taken back, brought back."""

from __future__ import annotations

import json
import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.decisions import withdrawal_of
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.kinds import BuildStarted
from fitwright.records.registry import shown_body
from fitwright.records.search import Search, Standing
from fitwright.web.addresses import record_address
from fitwright.web.frame import Frame
from fitwright.web.hands import Hands, hands_of
from fitwright.web.numbers import whole_number
from fitwright.web.pages.record.lines import RecordLine, bench_of, fate_of, lines, words_of
from fitwright.web.pages.record.listing import record_frame
from fitwright.web.people import PersonOption, people_to_choose, person_at, person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.whose import at_the_shop, who_wrote
from fitwright.web.writing import KEPT, Kept, Refused, Sent, UnclearFormError, sent, written

MOST_NAMING: Final = 40
"""So many entries that name this one are listed, the newest."""


@dataclass(frozen=True, slots=True)
class EntryFact:
    """Something about an entry, with its label."""

    label: str
    words: str


@dataclass(frozen=True, slots=True)
class EntrySaid:
    """What came of the form."""

    state: str
    words: str


@dataclass(frozen=True, slots=True)
class EntryContext:
    """The page of one entry; `way_back` says what the form does, and is empty where it can do nothing."""

    template: ClassVar[str] = "record_entry.html"
    frame: Frame
    seq: int
    kind: str
    words: str
    fate: str
    facts: tuple[EntryFact, ...]
    body: str
    naming: tuple[RecordLine, ...]
    way_back: str
    warning: str
    token: str
    entry_id: str
    reason: str
    everybody: tuple[PersonOption, ...]
    outcome: EntrySaid | None
    record: str


async def show(request: Request) -> Response:
    """Answer with the page of an entry."""
    hands = hands_of(request)
    return page(await run_in_threadpool(_context, request, hands, Sent({}), None))


async def take(request: Request) -> Response:
    """Take the entry back, or bring it back."""
    hands = hands_of(request)
    form = await sent(request)
    return await run_in_threadpool(_taken, request, hands, form)


def _taken(request: Request, hands: Hands, form: Sent) -> Response:
    came = written(hands, form, lambda: _withdrawal(request, hands, form))
    if isinstance(came, Kept):
        context = _context(request, hands, Sent({}), EntrySaid("kept", came.words))
        answer = page(context, status=KEPT)
        remember_person(answer, form.get("person") or None)
        return answer
    assert isinstance(came, Refused)  # noqa: S101  (nothing is asked here)
    again = Sent({**form.fields, "entry_id": ""}) if came.reused else form
    return page(_context(request, hands, again, EntrySaid("refused", came.words)), status=came.status)


def _withdrawal(request: Request, hands: Hands, form: Sent) -> Sequence[NewEntry]:
    standing = _standing(request, hands)
    person, reason = person_in(form, hands.shop.state), form.get("reason")
    if not reason:
        raise UnclearFormError("No reason was given", "say why in a few words; it stays beside the entry")
    withdrawn = standing.withdrawn_by
    # What the page showed is what is done: a withdrawal sent twice must not bring the entry back.
    target = standing.entry if form.get("do") != "bring-back" or withdrawn is None else withdrawn
    body = withdrawal_of(target.id, reason)
    entry_id = form.get("entry_id") or None
    return [hands.shop.entry(body, build=target.build, person=person, entry_id=entry_id)]


def _standing(request: Request, hands: Hands) -> Standing:
    """The entry that an address names, in the record of its build or of the shop."""
    seq, code = whole_number(request.path_params["seq"]), request.path_params.get("build")
    if seq is None:
        raise HTTPException(404)
    found = hands.shop.record.search(Search(build=code, after=seq - 1, before=seq + 1, limit=1))
    if not found:
        raise HTTPException(404)
    return found[0]


def _context(request: Request, hands: Hands, form: Sent, outcome: EntrySaid | None) -> EntryContext:
    code = request.path_params.get("build")
    with hands.shop.held():
        standing = _standing(request, hands)
        entry, shop = standing.entry, hands.shop.state
        who = form.get("person") or person_at(request, shop)
        return EntryContext(
            frame=record_frame(hands, f"Entry {entry.seq}", code),
            seq=entry.seq,
            kind=entry.kind,
            words=words_of(entry, bench_of(hands, entry.build)),
            fate=fate_of(standing),
            facts=tuple(_facts(hands, entry)),
            body=json.dumps(shown_body(entry), ensure_ascii=False, indent=1, sort_keys=True),
            naming=lines(hands, _naming(hands, entry), code),
            way_back=_way_back(standing),
            warning=_warning(standing),
            token=hands.token.value,
            entry_id=form.get("entry_id") or uuid.uuid4().hex,
            reason=form.get("reason"),
            everybody=people_to_choose(shop, who),
            outcome=outcome,
            record=record_address(code),
        )


def _facts(hands: Hands, entry: Entry) -> Iterator[EntryFact]:
    shop = hands.shop.state
    yield EntryFact("Entered by", who_wrote(shop, entry))
    yield EntryFact("Kept", f"{at_the_shop(shop, entry.committed_at)} ({entry.committed_at})")
    if entry.client_time is not None:
        yield EntryFact("Made, by its own clock", entry.client_time)
    if entry.device is not None:
        yield EntryFact("At", entry.device)
    yield EntryFact("Of", f"build {entry.build}" if entry.build is not None else "the shop")
    for label, name in (("Supersedes", "supersedes"), ("Takes back", "entry")):
        target = hands.shop.record.entry(str(entry.body.get(name) or ""))
        if target is not None:
            yield EntryFact(label, f"entry {target.seq}, {words_of(target, bench_of(hands, target.build))}")
    if entry.body.get("reason"):
        yield EntryFact("Reason", str(entry.body["reason"]))
    yield EntryFact("Id", entry.id)
    yield EntryFact("Hash in the chain", entry.hash)


def _naming(hands: Hands, entry: Entry) -> list[Standing]:
    """The entries that name this one: corrections, withdrawals, choices, moves, answers."""
    search = Search(build=entry.build, names=(entry.id,), after=entry.seq, limit=MOST_NAMING)
    return hands.shop.record.search(search)


def _way_back(standing: Standing) -> str:
    if standing.withdrawn_by is not None:
        return "bring-back"
    return "" if standing.superseded_by is not None else "take-back"


def _warning(standing: Standing) -> str:
    if standing.entry.kind == BuildStarted.kind and standing.withdrawn_by is None:
        return "Without this entry the build is on no page any more; the record of the shop still has it."
    return ""


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/record/{seq}", show, name="record entry"),
    Route("/builds/{build}/record/{seq}", take, methods=["POST"]),
    Route("/shop/record/{seq}", show),
    Route("/shop/record/{seq}", take, methods=["POST"]),
]
