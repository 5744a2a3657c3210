"""Entries of assembly in words: tightenings, steps, permissions, rework orders, signatures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import singledispatch

from fitwright.bench.amounts import amount_words
from fitwright.bench.fastener_lists import fastener_words
from fitwright.model.sheet import Sheet
from fitwright.records import kinds
from fitwright.records.kinds import Body, Typed
from fitwright.records.times import minute_of


@singledispatch
def work_words(body: Body, sheet: Sheet | None) -> str:
    """What the body of such an entry says, in one line; nothing where it is another kind of entry.

    Without a sheet things are called by their ids.
    """
    del body, sheet
    return ""


def called(sheet: Sheet | None, name: str) -> str:
    """What the sheet calls a group, step, consumable, `group/fastener`, `step/photo`; else nothing."""
    if sheet is None:
        return ""
    whole, slash, within = name.partition("/")
    group = sheet.tightening_groups.get(whole)
    if group is not None and slash:
        return f"{group.title}, {fastener_words(group, [within])}"
    for things in (sheet.tightening_groups, sheet.steps, sheet.consumables):
        found = things.get(name)
        if found is not None:
            return found.title
    step = sheet.steps.get(whole)
    return next((each.words for each in step.photos if each.id == within), "") if step is not None else ""


def subject_title(sheet: Sheet | None, name: str) -> str:
    """What the sheet calls whatever work can be about; its id where it has no name for it."""
    if sheet is not None:
        for things in (sheet.fits, sheet.dimensions, sheet.parts):
            found = things.get(name)
            if found is not None:
                return found.title
    return called(sheet, name) or name


def _fasteners(sheet: Sheet | None, group: str, names: Sequence[str]) -> str:
    known = sheet.tightening_groups.get(group) if sheet is not None else None
    return f"{known.title if known is not None else group}, {fastener_words(known, names)}"


def _told(facts: Iterable[str | None], between: str = ", ") -> str:
    return between.join(each for each in facts if each)


def _by(who: str | None) -> str:
    return f"by {who}" if who else ""


def _at(moment: str) -> str:
    found = minute_of(moment)
    return f"{found} UTC" if found != moment else moment


def _tail(words: str | None) -> str:
    return f": {words}" if words else ""


@work_words.register
def _(body: kinds.Tightening, sheet: Sheet | None) -> str:
    torque = f"{'up to ' if body.read == 'peak' else 'to '}{amount_words(body.torque)}" if body.torque else ""
    lengths = _lengths(body.free_length, body.tightened_length)
    facts = (
        torque,
        f"by {amount_words(body.angle)}" if body.angle else "",
        f"stretched {amount_words(body.stretch)}" if body.stretch else "",
        lengths,
    )
    more = (
        f"with {body.wrench}" if body.wrench else "",
        f"with {body.lubricant}" if body.lubricant else "",
        _by(body.performed_by),
        body.note,
    )
    where = _fasteners(sheet, body.group, body.fasteners)
    return f"{where}: pass {body.number} {_told([_told(facts), *more], '; ')}"


def _lengths(free: Typed | None, after: Typed | None) -> str:
    said = (
        f"free length {amount_words(free)}" if free is not None else "",
        f"tightened length {amount_words(after)}" if after is not None else "",
    )
    return _told(said)


@work_words.register
def _(body: kinds.TighteningCheck, sheet: Sheet | None) -> str:
    said = _told((body.check, _by(body.checked_by)), " ")
    return f"{_fasteners(sheet, body.group, body.fasteners)}: {said}{_tail(body.words)}"


@work_words.register
def _(body: kinds.Loosening, sheet: Sheet | None) -> str:
    facts = (
        f"it took {amount_words(body.breakaway_torque)}" if body.breakaway_torque is not None else "",
        f"length then {amount_words(body.length_after)}" if body.length_after is not None else "",
    )
    where = _fasteners(sheet, body.group, body.fasteners)
    return _told((f"{where}: loosened, {body.because}", *facts), "; ")


@work_words.register
def _(body: kinds.HeatCycle, sheet: Sheet | None) -> str:
    del sheet
    return f"heat cycle{f' at {_at(body.taken_at)}' if body.taken_at else ''}{_tail(body.words)}"


@work_words.register
def _(body: kinds.ConsumableUsed, sheet: Sheet | None) -> str:
    facts = (
        f"batch {body.batch}" if body.batch else "",
        f"good until {body.expires}" if body.expires else "",
        f"mixed {_at(body.mixed_at)}" if body.mixed_at else "",
        f"put on {_at(body.applied_at)}" if body.applied_at else "",
        _by(body.used_by),
        body.note,
    )
    step = f" in {subject_title(sheet, body.step)}" if body.step else ""
    return _told((f"{subject_title(sheet, body.consumable)} used{step}", *facts), "; ")


@work_words.register
def _(body: kinds.StepDone, sheet: Sheet | None) -> str:
    return f"{_told((f'{subject_title(sheet, body.step)} done', _by(body.done_by)), ' ')}{_tail(body.words)}"


@work_words.register
def _(body: kinds.WitnessInvited, sheet: Sheet | None) -> str:
    said = "invited" if body.answer == "invited" else body.answer
    return f"{subject_title(sheet, body.step)}: {body.invited} {said}{_tail(body.words)}"


@work_words.register
def _(body: kinds.StepReleased, sheet: Sheet | None) -> str:
    later = ", who looked again later" if body.later else ""
    return f"{subject_title(sheet, body.step)} released by {body.released_by}{later}{_tail(body.words)}"


@work_words.register(kinds.Concession)
@work_words.register(kinds.DeviationPermit)
def _(body: kinds.Concession | kinds.DeviationPermit, sheet: Sheet | None) -> str:
    accepts = "accepted" if isinstance(body, kinds.Concession) else "permitted"
    span = _told(
        f"{word} {amount_words(each)}"
        for word, each in (("from", body.lowest), ("to", body.highest))
        if each is not None
    )
    what = f"{subject_title(sheet, body.subject)} {accepts}{f' {span}' if span else ''}"
    said = (
        f"{body.kind} {body.code}: {what}",
        f"by {body.granted_by}, because {body.because}",
        f"until {body.until}" if body.until else "",
    )
    return _told(said, "; ")


@work_words.register
def _(body: kinds.ReworkOrder, sheet: Sheet | None) -> str:
    sizes = _told(subject_title(sheet, each) for each in body.dimensions)
    target = f", to {amount_words(body.target)}" if body.target is not None else ""
    return f"rework order {body.code}: {body.change} of {body.part} ({sizes}{target}): {body.words}"


@work_words.register
def _(body: kinds.ReworkChecked, sheet: Sheet | None) -> str:
    return f"{body.order}: {subject_title(sheet, body.item)} {body.answer}{_tail(body.words)}"


@work_words.register
def _(body: kinds.Signature, sheet: Sheet | None) -> str:
    later = ", who looked again later" if body.later else ""
    signed = f"{subject_title(sheet, body.subject)} signed as {body.meaning} by {body.signed_by}{later}"
    return f"{signed}, up to entry {body.seq}{_tail(body.words)}"


@work_words.register
def _(body: kinds.PinSet, sheet: Sheet | None) -> str:
    """Never the hash: whoever reads it could try PINs against it."""
    del sheet
    return f"PIN of {body.person} set{f', vouched for by {body.vouched_by}' if body.vouched_by else ''}"


@work_words.register
def _(body: kinds.DossierWritten, sheet: Sheet | None) -> str:
    del sheet
    replaces = f", in place of {body.replaces}" if body.replaces else ""
    return f"dossier written, revision {body.revision} ({body.depth}, {body.paper}){replaces}"
