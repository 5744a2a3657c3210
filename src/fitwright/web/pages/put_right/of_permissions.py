"""The forms by which somebody accepts what meets no limit: afterwards a concession, beforehand a permit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final, Protocol

from fitwright.assess.assembly.consequence import consequences_of
from fitwright.assess.assembly.results import FastenerState
from fitwright.assess.results import Verdict
from fitwright.bench import permissions
from fitwright.bench.context import Bench
from fitwright.bench.permissions import PermissionTyped
from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import verdict_sentence
from fitwright.model.fastener import readable_names
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Concession, DeviationPermit
from fitwright.units import echo, parse_quantity
from fitwright.web.entering.controls import (
    Asking,
    Control,
    amount,
    by_station,
    hidden,
    options,
    select,
    words,
)
from fitwright.web.entering.effects import EffectPoint, Effects
from fitwright.web.entering.kinds import FormKind
from fitwright.web.forms import Option, OptionGroup
from fitwright.web.pages.put_right.ranges import Range, range_to_accept

UNTIL: Final = ("the first strip-down", "the next oil change", "the first inspection")
"""What is often said of how long something is accepted."""
FOLLOWS: Final = "What does it accept?"
PROMISE: Final = "Here it will say what is accepted with it, computed from this engine, before it is granted."


def _outside(asking: Asking) -> dict[str, str]:
    judge, assessor = asking.judge, asking.assessor
    return {
        each.id: each.title
        for each in judge.subjects.values()
        if assessor.verdict(each.id).verdict is Verdict.OUTSIDE
    }


def _fasteners(asking: Asking, wanted: Callable[[FastenerState], bool]) -> Iterator[OptionGroup]:
    """Fasteners group by group."""
    chosen = {asking.get("subject")}
    for group in asking.standing().groups.values():
        called = readable_names(group.group)
        names = {
            f"{group.id}/{each.id}": f"{group.title}, {called[each.id]}"
            for each in group.fasteners
            if wanted(each.state)
        }
        yield from options(group.title, names, chosen)


def _concession_first(asking: Asking) -> tuple[Control, ...]:
    outside = _outside(asking)
    rest = {each.id: each.title for each in asking.judge.subjects.values() if each.id not in outside}
    chosen = {asking.get("subject")}
    groups = (
        *options("Outside", outside, chosen),
        *_fasteners(asking, lambda state: state is FastenerState.OUTSIDE),
        *by_station(asking, rest, chosen),
    )
    return (select(asking, "subject", "For which fit, size or fastener", groups),)


def _permit_first(asking: Asking) -> tuple[Control, ...]:
    every = {each.id: each.title for each in asking.judge.subjects.values()}
    groups = (*by_station(asking, every, {asking.get("subject")}), *_fasteners(asking, lambda _: True))
    return (select(asking, "subject", "For which fit, size or fastener", groups),)


def _is_ready(asking: Asking) -> bool:
    subject = asking.get("subject")
    group, _, fastener = subject.partition("/")
    held = asking.bench.sheet.tightening_groups.get(group)
    return subject in asking.judge.subjects or (held is not None and held.fastener(fastener) is not None)


def _controls(asking: Asking) -> tuple[Control, ...]:
    subject = asking.get("subject")
    unit = permissions.accepted_of(asking.bench, subject, asking.family).unit
    known = _known_range(asking, unit)
    usual = OptionGroup("Usually", tuple(Option(each, each, chosen=False) for each in UNTIL))
    return (
        hidden("subject", subject),
        _end(asking, "lowest", "Accepted from", known.lowest, unit),
        _end(asking, "highest", "Accepted up to", known.highest, unit),
        Control("about", "until", "Until when", asking.get("until"), _UNTIL_HINT, groups=(usual,)),
        words(asking, "because", "Why", "Why this is right for this engine and this duty."),
    )


_UNTIL_HINT = "An event, or a date as 2031-05-04. Empty: as long as these parts are in place."


def _end(asking: Asking, name: str, label: str, known: str, unit: str) -> Control:
    """One end of what is accepted, as typed; before anything was typed, as far as it is known."""
    found = amount(asking, name, label, unit, "Empty: no bound on this side.")
    if name in asking.form.fields or not known:
        return found
    return Control(found.kind, found.name, found.label, known, found.hint, found.unit)


def _known_range(asking: Asking, unit: str) -> Range:
    subject = asking.get("subject")
    if subject not in asking.judge.subjects:
        return Range("", "")
    return range_to_accept(asking.assessor.verdict(subject), Reader(asking.family), unit)


def _lead(asking: Asking) -> str:
    subject = asking.get("subject")
    if not _is_ready(asking):
        return "What it is for comes first: what is accepted follows from it."
    if subject in asking.judge.subjects:
        found = asking.assessor.verdict(subject)
        return f"{found.name}: {verdict_sentence(found, Reader(asking.family))}"
    group, _, fastener = subject.partition("/")
    standing = asking.standing().groups[group]
    held = standing.fastener(fastener)
    called = readable_names(standing.group).get(fastener, fastener)
    return f"{standing.title}, {called}: {held.words if held is not None else 'not tightened'}."


def _echo(asking: Asking) -> str:
    """What is accepted, in both units."""
    subject = asking.get("subject")
    unit = permissions.accepted_of(asking.bench, subject, asking.family).unit
    told = [
        f"{word} {echo(parse_quantity(asking.get(name), default_unit=unit))}"
        for name, word in (("lowest", "from"), ("highest", "up to"))
        if asking.get(name)
    ]
    return f"Accepted {' '.join(told)}." if told else ""


def _typed(asking: Asking) -> PermissionTyped:
    return PermissionTyped(
        subject=asking.get("subject"),
        lowest=asking.get("lowest"),
        highest=asking.get("highest"),
        because=asking.get("because"),
        granted_by=asking.get("person"),
        until=asking.get("until"),
    )


def _concession(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    return _granted(permissions.grant_concession, asking, taking)


def _permit(asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    return _granted(permissions.grant_permit, asking, taking)


class _Grant(Protocol):
    """Makes a concession or a permit."""

    def __call__(
        self, bench: Bench, said: PermissionTyped, taking: WorkTaking, *, consequence: Sequence[str] = ()
    ) -> WorkTaken | Question: ...


def _granted(grant: _Grant, asking: Asking, taking: WorkTaking) -> WorkTaken | Question:
    """The permission with what follows from it, which is worked out from the range that was typed."""
    made = grant(asking.bench, _typed(asking), taking)
    if isinstance(made, Question) or not isinstance(made.body, Concession | DeviationPermit):
        return made
    range_ = made.body
    found = consequences_of(
        asking.assessor, range_.subject, lowest=range_.lowest, highest=range_.highest, now=taking.now
    )
    return grant(asking.bench, _typed(asking), taking, consequence=[each.words for each in found])


def _accepts(asking: Asking, entries: Sequence[NewEntry], *, done: bool, echo: str = "") -> Effects:
    """What is accepted with it, as it is stored with it, and for which parts."""
    body = entries[0].body
    return _effects(asking, body["consequence"], body["parts"], done=done, echo=echo)


def _ahead(asking: Asking) -> Effects:
    """The same before anybody has put a reason and a name to it."""
    what = permissions.accepted_of(asking.bench, asking.get("subject"), asking.family)
    follows = [each.words for each in consequences_of(asking.assessor, what.subject)]
    return _effects(asking, follows, what.parts, done=False)


def _effects(
    asking: Asking, follows: Sequence[str], parts: Mapping[str, str], *, done: bool, echo: str = ""
) -> Effects:
    named = ", ".join(dict.fromkeys(parts.values()))
    holds = (
        f"It holds for {named}; with another part in place it holds no longer."
        if named
        else "It is for the place, whatever part sits there."
    )
    subject = asking.judge.subjects.get(asking.get("subject"))
    still = f" {subject.title} stays outside, and says so." if subject is not None and done else ""
    points = tuple(EffectPoint("", "", each) for each in follows)
    return Effects(echo, f"{holds}{still}", (), "", done, points)


_CAUTION = (
    "It accepts what is; it mends nothing. The engine maker's manual and local codes govern, and a "
    "qualified person decides."
)
CONCESSION = FormKind(
    "grant",
    "Grant a concession",
    "Grant a concession",
    "Grant it",
    _controls,
    first=_concession_first,
    is_ready=_is_ready,
    lead=_lead,
    caution=lambda _: _CAUTION,
    echo=_echo,
    suppose=_accepts,
    ask=FOLLOWS,
    promise=PROMISE,
    signs=True,
    ahead=_ahead,
    take=_concession,
)
PERMIT = FormKind(
    "permit",
    "Permit a deviation",
    "Permit a deviation beforehand",
    "Permit it",
    _controls,
    first=_permit_first,
    is_ready=_is_ready,
    lead=_lead,
    caution=lambda _: _CAUTION,
    echo=_echo,
    suppose=_accepts,
    ask=FOLLOWS,
    promise=PROMISE,
    signs=True,
    ahead=_ahead,
    take=_permit,
)
