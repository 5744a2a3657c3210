"""The forms that a page offers, those that go together in a row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from fitwright.web.entering.controls import Asking
from fitwright.web.entering.entry_form import EntryForm
from fitwright.web.entering.kinds import FormKind, Forms


@dataclass(frozen=True, slots=True)
class Offer:
    """A form that can be opened, or another thing that can be done next."""

    label: str
    address: str
    open: bool


@dataclass(frozen=True, slots=True)
class OfferRow:
    """Forms that go together."""

    title: str
    offers: tuple[Offer, ...]


def offered(
    asking: Asking, forms: Forms, rows: Mapping[str, tuple[FormKind, ...]], form: EntryForm | None
) -> tuple[OfferRow, ...]:
    """The rows of forms of a page; the one that is open is marked."""
    return tuple(OfferRow(title, tuple(_offers(asking, forms, kinds, form))) for title, kinds in rows.items())


def _offers(
    asking: Asking, forms: Forms, kinds: tuple[FormKind, ...], form: EntryForm | None
) -> Iterator[Offer]:
    for kind in kinds:
        address = forms.address(asking.code, asking.family, do=kind.name, list=asking.get("list"))
        yield Offer(kind.label, address, form is not None and form.name == kind.name)
