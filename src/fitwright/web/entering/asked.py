"""What is asked of a page, from its address or from a form."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.datastructures import ImmutableMultiDict
from starlette.requests import Request

from fitwright.units.families import Family
from fitwright.web.entering.controls import Asking
from fitwright.web.hands import Hands
from fitwright.web.writing import Sent


def from_address(request: Request) -> Sent:
    """What an address says, as a form would say it."""
    return _sent(request.query_params)


def _sent(params: ImmutableMultiDict[str, str]) -> Sent:
    lists: dict[str, tuple[str, ...]] = {}
    for name, value in params.multi_items():
        lists[name] = (*lists.get(name, ()), value.strip())
    fields: Mapping[str, str] = {name: values[-1] for name, values in lists.items()}
    return Sent(fields, lists)


def asking_of(hands: Hands, code: str, family: Family, form: Sent) -> Asking:
    """Whoever asks; inside `held`, so that build and judge belong together."""
    return Asking(
        bench=hands.shop.bench(code),
        assessor=hands.shop.assessor(code),
        code=code,
        family=family,
        form=form,
        keep=hands.shop.keep_photo,
        standing=lambda: hands.shop.assembly(code),
        head=hands.shop.record.head,
    )
