"""The forms by which somebody decides: a limit adopted, readings chosen, an entry taken back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.assess.changed import changed_since
from fitwright.assess.results import Reason
from fitwright.assess.subjects import Subject
from fitwright.bench.adopting import limit_adopted
from fitwright.bench.decisions import Decided, choice_of, withdrawal_of
from fitwright.bench.entry_words import entry_words
from fitwright.bench.progress import reading_words
from fitwright.bench.together import first_of, written_together
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import verdict_sentence
from fitwright.model.limit import Limit
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body
from fitwright.records.projection import ReadingRecord
from fitwright.records.registry import SIGNED_KINDS
from fitwright.units import echo, parse_quantity
from fitwright.units.families import shop_unit
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.entering.controls import (
    Asking,
    ChoiceRow,
    Control,
    amount,
    by_station,
    hidden,
    one,
    options,
    select,
    text,
    words,
)
from fitwright.web.entering.kinds import FormKind
from fitwright.web.forms import Option
from fitwright.web.writing import UnclearFormError

DECIDED: dict[Decided, str] = {
    "use again": "Use again: the set is back together",
    "use instead": "Use one instead of another",
    "keep both": "Keep both",
}


def _adopt_first(asking: Asking) -> tuple[Control, ...]:
    judge = asking.judge
    open_ = {
        each.id: each.title
        for each in judge.subjects.values()
        if asking.assessor.verdict(each.id).reason is Reason.NO_LIMIT_ADOPTED
    }
    every = {each.id: each.title for each in judge.subjects.values() if each.id not in open_}
    chosen = {asking.get("subject")}
    groups = (*options("No limit adopted yet", open_, chosen), *by_station(asking, every, chosen))
    return (select(asking, "subject", "Fit or size", groups),)


def _adopt_ready(asking: Asking) -> bool:
    return asking.get("subject") in asking.judge.subjects


def _adopt_controls(asking: Asking) -> tuple[Control, ...]:
    subject = asking.judge.subjects[asking.get("subject")]
    unit = _unit(asking, subject)
    return (
        hidden("subject", subject.id),
        select(
            asking,
            "source",
            "Whose limit",
            options("Sources", _sources(asking, subject), {asking.get("source")}),
        ),
        amount(asking, "lower", "Lower bound, stated anew", unit, "Empty: as the source states it."),
        amount(asking, "upper", "Upper bound, stated anew", unit, "Empty: as the source states it."),
        words(asking, "reason", "Why"),
    )


def _unit(asking: Asking, subject: Subject) -> str:
    bounds = [each.si for limit in subject.limits for each in (limit.lower, limit.upper) if each is not None]
    largest = max((abs(each) for each in bounds), default=0.0)
    return shop_unit(DIMENSION_OF[subject.sense], asking.family, largest)


def _sources(asking: Asking, subject: Subject) -> dict[str, str]:
    """The sources of the sheet, with the limit that each states here; those that do first."""
    sources = asking.bench.sheet.sources
    stated = {limit.source: limit for limit in subject.limits if limit.temperature_case is None}
    order = sorted(sources, key=lambda name: name not in stated)
    return {name: _source_words(asking, name, stated.get(name)) for name in order}


def _source_words(asking: Asking, name: str, limit: Limit | None) -> str:
    source = asking.bench.sheet.sources[name]
    bounds = (
        [
            f"{word} {bound.written}"
            for word, bound in (("from", limit.lower), ("to", limit.upper))
            if bound is not None
        ]
        if limit is not None
        else []
    )
    at = f", {limit.place_in_source}" if limit is not None and limit.place_in_source else ""
    return f"{source.title}{at} ({source.kind.value}): {' '.join(bounds) or 'states no limit of it'}"


def _adopt(asking: Asking) -> Sequence[Body]:
    if not asking.get("source"):
        raise UnclearFormError("No source is chosen", "choose whose limit it is")
    if not asking.get("person"):
        raise UnclearFormError("Nobody is picked", "say who adopts the limit")
    subject = asking.judge.subjects[asking.get("subject")]
    body = limit_adopted(
        asking.bench,
        subject.id,
        asking.get("source"),
        by=asking.get("person"),
        reason=asking.get("reason"),
        lower=asking.get("lower") or None,
        upper=asking.get("upper") or None,
        unit=_unit(asking, subject),
    )
    return (body,)


def _adopt_echo(asking: Asking) -> str:
    """The bounds stated anew, in both units."""
    subject = asking.judge.subjects[asking.get("subject")]
    unit, kind = _unit(asking, subject), DIMENSION_OF[subject.sense]
    told = [
        f"{word} {echo(parse_quantity(asking.get(name), default_unit=unit, dimension=kind))}"
        for name, word in (("lower", "from"), ("upper", "to"))
        if asking.get(name)
    ]
    return f"{' '.join(told)}." if told else ""


def _adopt_lead(asking: Asking) -> str:
    if not _adopt_ready(asking):
        return "A critical fit without an adopted limit stays unproven until a named person adopts one."
    subject = asking.judge.subjects[asking.get("subject")]
    found = asking.assessor.verdict(subject.id)
    return f"{subject.title}: {verdict_sentence(found, Reader(asking.family))}"


def _choose_first(asking: Asking) -> tuple[Control, ...]:
    bench, chosen = asking.bench, {asking.get("dimension")}
    changed = {each.dimension.id: each.dimension.title for each in changed_since(asking.judge)}
    read = {
        each.id: each.title
        for each in bench.sheet.dimensions.values()
        if each.id not in changed and bench.build.readings_of(each.feature)
    }
    groups = (*options("Changed since", changed, chosen), *by_station(asking, read, chosen))
    return (select(asking, "dimension", "Readings of", groups),)


def _choose_ready(asking: Asking) -> bool:
    return asking.get("dimension") in asking.bench.sheet.dimensions


def _choose_controls(asking: Asking) -> tuple[Control, ...]:
    rows = tuple(row for _, row in _rows(asking))
    proposed = any(each.chosen for row in rows for each in row.options if each.value == "use")
    again = proposed and not asking.get("decided")
    fields = {**asking.form.fields, "decided": "use again"} if again else asking.form.fields
    told = asking._replace(form=type(asking.form)(fields, asking.form.lists))
    return (
        hidden("dimension", asking.get("dimension")),
        one(told, "decided", "Decision", dict(DECIDED.items())),
        Control(
            "rows",
            "readings",
            "Readings",
            hint=_ROWS_HINT,
            empty="Nothing was read here that could be decided about.",
            rows=rows,
        ),
        text(asking, "reason", "Why", hint="Same parts, same torque; or why the other is wrong."),
    )


_ROWS_HINT = "“Use” for those that count, “not” for those that another is used instead of."


def _rows(asking: Asking) -> Iterator[tuple[ReadingRecord, ChoiceRow]]:
    """The readings of a dimension, the last first; what may be used again is proposed."""
    dimension = asking.bench.dimension(asking.get("dimension"))
    evidence = asking.judge.member(dimension.id).evidence
    why = {each.entry: each for each in evidence.unused}
    asked = bool(asking.get("decided"))
    for record in reversed(asking.bench.build.readings_of(dimension.feature)):
        held = why.get(record.entry.id)
        if not record.effective or (held is None and record not in evidence.used):
            continue
        name = f"reading:{record.entry.id}"
        chosen = asking.get(name) if asked else "use" if held is not None and held.by_choice else ""
        options = tuple(Option(value, label, value == chosen) for value, label in _ANSWERS.items())
        yield record, ChoiceRow(name, _row_words(record, held.why if held is not None else ""), options)


_ANSWERS = {"": "as it is", "use": "use", "not": "not"}


def _row_words(record: ReadingRecord, why: str) -> str:
    who = record.body.measured_by or record.entry.person or ""
    at = "" if record.place == "whole" else f"{record.place.replace('/', ' ')}: "
    facts = [f"{at}{reading_words(record)}", who, record.body.sitting or "", why or "used now"]
    return ", ".join(each for each in facts if each)


def _choose(asking: Asking) -> Sequence[Body]:
    decided = next((each for each in DECIDED if each == asking.get("decided")), None)
    if decided is None:
        raise UnclearFormError("No decision is chosen", "say use again, use instead or keep both")
    said = {record.entry.id: asking.get(row.name) for record, row in _rows(asking)}
    used = [entry for entry, word in said.items() if word == "use"]
    instead = [entry for entry, word in said.items() if word == "not"]
    return (
        choice_of(
            decided,
            used,
            instead_of=instead if decided == "use instead" else (),
            reason=asking.get("reason"),
            dimension=asking.get("dimension"),
        ),
    )


def _back_entries(asking: Asking) -> tuple[Entry, ...]:
    """The entries that one takes back: all that were written together with the one named."""
    ledger = asking.bench.build.ledger
    return written_together(ledger, first_of(ledger, asking.get("entry")))


def _back_controls(asking: Asking) -> tuple[Control, ...]:
    return (hidden("entry", asking.get("entry")), text(asking, "reason", "Why"))


def _back(asking: Asking) -> Sequence[Body]:
    """Withdrawals of what stands; of what was taken back already, of its withdrawals."""
    ledger, entries = asking.bench.build.ledger, _back_entries(asking)
    if not entries:
        raise UnclearFormError("There is no such entry in this build", "choose one from its list")
    standing = [each for each in entries if ledger.effective(each.id)]
    taken = [each for entry in entries if (each := ledger.withdrawn_by(entry.id)) is not None]
    if not (standing or taken):
        raise UnclearFormError("A later entry stands in its place", "take that one back")
    return [withdrawal_of(each.id, asking.get("reason")) for each in standing or taken]


def brings_back(asking: Asking) -> bool:
    """Whether taking back would bring back what was taken back already."""
    ledger = asking.bench.build.ledger
    entries = _back_entries(asking)
    return bool(entries) and not any(ledger.effective(each.id) for each in entries)


def _are_signed(asking: Asking) -> bool:
    """Whether one of them counts for nothing without its person."""
    return any(each.kind in SIGNED_KINDS for each in _back_entries(asking))


def _back_lead(asking: Asking) -> str:
    told = [f"entry {each.seq}, {entry_words(asking.bench, each)}" for each in _back_entries(asking)]
    if not told:
        return "There is no such entry in this build."
    word = "Brings back" if brings_back(asking) else "Takes back"
    return f"{word}: {'; and '.join(told)}. Both stay visible."


ADOPT = FormKind(
    "adopt",
    "Adopt a limit",
    "Adopt a limit",
    "Adopt it",
    _adopt_controls,
    _adopt,
    first=_adopt_first,
    is_ready=_adopt_ready,
    lead=_adopt_lead,
    echo=_adopt_echo,
)
CHOOSE = FormKind(
    "choose",
    "Use again, or choose",
    "Which readings count",
    "Decide so",
    _choose_controls,
    _choose,
    first=_choose_first,
    is_ready=_choose_ready,
    lead=lambda asking: (
        asking.bench.sheet.dimensions[asking.get("dimension")].title
        if _choose_ready(asking)
        else "Readings that were set aside because parts changed, or two that disagree."
    ),
)
BACK = FormKind(
    "back",
    "",
    "Take an entry back",
    "Do so",
    _back_controls,
    _back,
    lead=_back_lead,
    signs=lambda asking: brings_back(asking) and _are_signed(asking),
)
OF_DECISIONS = (ADOPT, CHOOSE)
