"""A tightening sent: all fasteners that want a pass, or one; written, asked about, or refused in place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.tightenings import TighteningTyped, take_tightening
from fitwright.bench.together import written_together
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry, same_again
from fitwright.records.ids import is_entry_id
from fitwright.web.addresses import enter_assembly_address
from fitwright.web.forms import answers_in
from fitwright.web.pages.assembly.group import Outcome, group_page
from fitwright.web.pages.assembly.opened import Opened
from fitwright.web.pages.assembly.tighten_form import WHAT, TightenState
from fitwright.web.people import person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.visit import Visit, visit_of
from fitwright.web.writing import NOT_KEPT, Came, Kept, Refused, Sent, UnclearFormError, sent, written

STAYS = ("wrench", "lubricant", "person", "number", "what", "read")
"""What stays in the form for the next fastener; its pass only as long as one wants it."""


@dataclass(slots=True)
class Sending:
    """A tightening on its way: who sends what, and what was made of it."""

    visit: Visit
    group: str
    form: Sent
    words: str = ""
    cautions: tuple[str, ...] = field(default=())

    def entries(self) -> Sequence[NewEntry] | Question:
        """The entries that the form makes, or what is asked first; those made already, as they stand."""
        _, hands, code, family = self.visit
        bench, form = hands.shop.bench(code), self.form
        if not is_entry_id(form.get("entry_id")):
            raise UnclearFormError("The form has lost its number", "open the page anew and fill it in again")
        before = written_together(bench.build.ledger, form.get("entry_id"))
        if before:
            self.words = "This had reached the record already."
            return [same_again(entry) for entry in before]
        taking = WorkTaking(
            family=family,
            person=person_in(form, bench.shop),
            device=hands.device,
            entry_id=form.get("entry_id"),
            answers=answers_in(form.fields),
            supersedes=form.get("supersedes") or None,
            reason=form.get("reason") or None,
        )
        made = take_tightening(bench, typed_in(self.group, form), taking)
        if isinstance(made, WorkTaken):
            self.words, self.cautions = made.words, made.cautions
            return made.entries
        return made


def typed_in(group: str, form: Sent) -> TighteningTyped:
    """What a form says: of all that want the pass, or of the fastener in hand.

    Raises
    ------
    UnclearFormError
        If it says neither.
    """
    common = TighteningTyped(
        group=group,
        number=form.get("number"),
        wrench=form.get("wrench"),
        lubricant=form.get("lubricant"),
        note=form.get("note"),
        bolts=form.get("bolts"),
    )
    if form.get("all"):
        torque, angle = form.get("all_torque"), form.get("all_angle")
        return replace(common, fasteners=form.get("fasteners"), torque=torque, angle=angle)
    if not form.get("at"):
        raise UnclearFormError("No fastener is chosen", "touch one in the drawing or in the list")
    if not form.get("value"):
        raise UnclearFormError("Nothing was typed", "type what the wrench or the gauge says")
    return replace(
        common,
        fasteners=form.get("at"),
        read="peak" if form.get("read") == "peak" else "set",
        members={form.get("at"): form.get("part")} if form.get("part") else {},
        **amounts_in(form),
    )


def amounts_in(form: Sent) -> dict[str, str]:
    """The amounts typed for one fastener, by what they are of."""
    what = form.get("what") if form.get("what") in WHAT else "torque"
    amounts = {what: form.get("value")}
    if what == "tightened_length":
        amounts["free_length"] = form.get("free_length")
    if what != "torque":
        amounts["torque"] = form.get("also")
    return amounts


async def take(request: Request) -> Response:
    """Take a tightening."""
    visit = await visit_of(request)
    group = Opened.of(visit).group_asked(visit.named("group"))
    form = await sent(request)
    sending = Sending(visit, group.id, form)
    came = await run_in_threadpool(written, visit.hands, form, sending.entries)
    answer = await run_in_threadpool(_answered, sending, came)
    remember_person(answer, form.get("person") if isinstance(came, Kept) else None)
    return answer


def _answered(sending: Sending, came: Came) -> Response:
    visit, form, told = sending.visit, sending.form, _outcome(sending, came)
    if isinstance(came, Kept):
        at = "" if form.get("all") else _next(sending)
        stays = [name for name in STAYS if name in form.fields and (at or name != "number")]
        state = TightenState({name: form.get(name) for name in stays})
        return page(group_page(visit, came=told, state=state, at=at), status=came.status)
    fields = dict(form.fields)
    if isinstance(came, Refused) and came.reused:
        fields.pop("entry_id", None)
    state = TightenState(fields, came if isinstance(came, Question) else None)
    status = came.status if isinstance(came, Refused) else 200
    return page(group_page(visit, came=told, state=state, at=form.get("at")), status=status)


def _next(sending: Sending) -> str:
    """The fastener after this one that still wants this pass; none where all have had it."""
    with sending.visit.hands.shop.held():
        found = Opened.of(sending.visit).group(sending.group)
    number = sending.form.get("number")
    wanting = next((each.missing for each in found.passes if str(each.number) == number), ())
    names = [each.id for each in found.fasteners]
    index = names.index(sending.form.get("at")) if sending.form.get("at") in names else 0
    order = [*names[index + 1 :], *names[:index]]
    return next((name for name in order if name in wanting), "")


def _outcome(sending: Sending, came: Came) -> Outcome:
    _, hands, code, family = sending.visit
    person, token = sending.form.get("person"), hands.token.value
    if isinstance(came, Question):
        return Outcome("question", "A question first; nothing is kept yet.", "", "", "", "", "")
    if isinstance(came, Refused):
        title = "Not kept." if came.status == NOT_KEPT else "Not taken."
        return Outcome("refused", title, came.words, "", "", "", "")
    words = " ".join((f"{sending.words}.".replace("..", "."), came.words, *sending.cautions))
    undo = enter_assembly_address(code, family, "back", group=sending.group)
    entry = came.acknowledgements[0].id
    return Outcome("kept", "Kept.", words[:1].upper() + words[1:], undo, token, entry, person)
