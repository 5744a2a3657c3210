"""`fitwright shop pin`: a person's PIN, set or changed, typed without being shown."""

from __future__ import annotations

import sys
from typing import Annotated

from cyclopts import Parameter

from fitwright.cli.errors import OK
from fitwright.cli.pins import typed_pin
from fitwright.cli.shop import DEFAULT_DATA, Data, opened


def pin(
    person: str,
    /,
    *,
    vouched_by: Annotated[
        str | None, Parameter(help="Who vouches, with their own PIN, where the old one is forgotten.")
    ] = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Set or change the PIN with which a person signs: 4 to 12 digits, typed twice and shown nowhere.

    To change one it takes the old one. Scripts give each PIN as a line of standard input: the old one (or
    that of whoever vouches) first, then the new one twice.

    Example: fitwright shop pin builder
    """
    from fitwright.bench.pins import has_pin
    from fitwright.bench.sittings import person_named

    with opened(data) as shop:
        who = person_named(shop.state, person)
        voucher = person_named(shop.state, vouched_by) if vouched_by is not None else None
        proof = voucher or who
        pins = {}
        if voucher is not None or has_pin(shop.state, who):
            pins = {proof: typed_pin(f"PIN of {shop.state.people[proof].body.name}: ")}
        new, again = typed_pin("New PIN: "), typed_pin("New PIN again: ")
        entry = shop.pin_entry(who, new, again=again, vouched_by=voucher)
        written = shop.write([entry], pins=pins)
    seq = written.acknowledgements[0].seq
    sys.stdout.write(f"The PIN of {shop.state.people[who].body.name} is set (entry {seq}).\n")
    return OK
