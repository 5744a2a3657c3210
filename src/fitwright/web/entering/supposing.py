"""What a form would do if it were written as it stands."""

from __future__ import annotations

from typing import Final

from fitwright.bench.errors import BenchError
from fitwright.model.slips import Question
from fitwright.records.errors import RecordError
from fitwright.units import QuantityError
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.effects import NO_EFFECTS, Effects
from fitwright.web.entering.kinds import FormKind
from fitwright.web.entering.making import entries_of
from fitwright.web.hands import Hands
from fitwright.web.writing import Sent, UnclearFormError

_ANY_ID: Final = "0" * 32


def supposed(hands: Hands, kind: FormKind, asking: Asking) -> Effects:
    """What a form would do; nothing yet where it is not filled in."""
    if kind.suppose is None:
        return NO_EFFECTS
    fields = {**asking.form.fields, "entry_id": _ANY_ID}
    filled = asking._replace(form=Sent(fields, asking.form.lists, asking.form.files))
    try:
        entries = entries_of(hands, kind, filled, filled.get("person") or None)
        if isinstance(entries, Question):
            return Effects("", entries.text, (), "", done=False)
        return kind.suppose(filled, entries, done=False, echo=kind.echo(filled))
    except _UNCLEAR:
        return _ahead(kind, filled)


_UNCLEAR: Final = (BenchError, QuantityError, RecordError, UnclearFormError, ValueError)


def _ahead(kind: FormKind, asking: Asking) -> Effects:
    """What can be said although the form is not filled in."""
    promise = Effects("", kind.promise, (), "", done=False)
    if kind.ahead is None:
        return promise
    try:
        return kind.ahead(asking)
    except _UNCLEAR:
        return promise
