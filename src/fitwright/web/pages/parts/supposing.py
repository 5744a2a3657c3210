"""What a form would do if it were written as it stands."""

from __future__ import annotations

from typing import Final

from fitwright.bench.errors import BenchError
from fitwright.records.errors import RecordError
from fitwright.units import QuantityError
from fitwright.web.hands import Hands
from fitwright.web.pages.parts.controls import Asking
from fitwright.web.pages.parts.effects import Effects, effects_of
from fitwright.web.pages.parts.entry_form import entries_of
from fitwright.web.pages.parts.kinds import FormKind
from fitwright.web.writing import Sent, UnclearFormError

INCOMPLETE: Final = Effects(
    "", "Here it will say what it un-proves, before it is written.", (), "", done=False
)
_ANY_ID: Final = "0" * 32


def supposed(hands: Hands, kind: FormKind, asking: Asking) -> Effects:
    """What a form would un-prove; nothing yet where it is not filled in."""
    fields = {**asking.form.fields, "entry_id": _ANY_ID}
    filled = asking._replace(form=Sent(fields, asking.form.lists, asking.form.files))
    try:
        entries = entries_of(hands, filled, kind.bodies(filled), None)
        echo = kind.echo(filled)
        return effects_of(asking.assessor, asking.code, asking.family, entries, done=False, echo=echo)
    except (BenchError, QuantityError, RecordError, UnclearFormError, ValueError):
        return INCOMPLETE
