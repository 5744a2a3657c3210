"""`fitwright sign`: a person signs a build, one of its steps, groups or permissions, by name and PIN."""

from __future__ import annotations

from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.errors import UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.work_entering import By, Entering, Later, Words

_MEANS = "performed: did the work; checked: looked at it; released: passes it on as it stands."


def sign(
    build: str,
    subject: Annotated[
        str, Parameter(help="dossier, a step, a tightening group, or the code of a permission.")
    ] = "dossier",
    /,
    *,
    meaning: Annotated[
        Literal["performed", "checked", "released"],
        Parameter(
            help="performed: did the work; checked: looked at it; released: passes it on as it stands."
        ),
    ],
    by: By = None,
    later: Later = False,
    words: Words = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Sign a build as it now stands in the record: performed, checked or released.

    The signature names the last entry that it speaks for. Once a shop has two people it takes a PIN: asked
    for, in FITWRIGHT_PIN, or a line of standard input.

    Example: fitwright sign corrie-five --meaning checked --by builder --data demo
    """
    from fitwright.bench import signing

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        head = shop.record.head()
        if head is None or entering.person is None:
            raise UsageError("Nobody is named: say who signs with --by.")
        taken = signing.sign(
            entering.bench,
            subject,
            meaning,
            entering.taking(),
            head=head,
            later=later,
            words=words or "",
        )
        return entering.write(taken, signed_by=entering.person)
