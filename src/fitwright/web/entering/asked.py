"""What is asked of a page, from its address or from a form."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.web.entering.controls import Asking
from fitwright.web.visit import Visit
from fitwright.web.writing import Sent


def from_address(visit: Visit) -> Sent:
    """What an address says, as a form would say it."""
    lists: dict[str, tuple[str, ...]] = {}
    for name, value in visit.request.query_params.multi_items():
        lists[name] = (*lists.get(name, ()), value.strip())
    fields: Mapping[str, str] = {name: values[-1] for name, values in lists.items()}
    return Sent(fields, lists)


def asking_of(visit: Visit, form: Sent) -> Asking:
    """Whoever asks; inside `held`, so that build and judge belong together."""
    shop, code = visit.hands.shop, visit.code
    return Asking(
        bench=shop.bench(code),
        assessor=shop.assessor(code),
        code=code,
        family=visit.family,
        form=form,
        keep=shop.keep_photo,
        standing=lambda: shop.assembly(code),
        head=shop.record.head,
    )
