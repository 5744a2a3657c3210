"""`fitwright work done`, `release`, `witness`, `use`: steps of the order of work, and what they use."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.work_entering import Answer, By, Entering, Later, Words

if TYPE_CHECKING:
    from fitwright.wiring import Shop

_ANSWERS = {"invited": "invited", "was-present": "was present", "did-not-come": "did not come"}


def done(build: str, step: str, /, *, by: By = None, words: Words = None, data: Data = DEFAULT_DATA) -> int:
    """Say that the work of a step was done; it is not taken while the step waits for something.

    Example: fitwright work done brackengill-eleven flywheel.on --by builder --data demo
    """
    from fitwright.bench.steps import step_done

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        taken = step_done(entering.bench, step, entering.taking(), words=words or "")
        code = entering.write(taken)
        sys.stdout.writelines(_next(shop, build))
        return code


def release(
    build: str,
    step: str,
    /,
    *,
    by: By = None,
    later: Later = False,
    words: Words = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Release a hold point by name; once a shop has two people, with that person's PIN.

    The PIN is asked for without being shown; scripts set FITWRIGHT_PIN or give it on standard input.

    Example: fitwright work release brackengill-eleven bottom_end.looked_at --by foreman --data demo
    """
    from fitwright.bench.steps import step_released

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        taken = step_released(entering.bench, step, entering.taking(), later=later, words=words or "")
        code = entering.write(taken, signed_by=taken.entries[0].person)
        sys.stdout.writelines(_next(shop, build))
        return code


def witness(
    build: str,
    step: str,
    /,
    *,
    invited: Annotated[str | None, Parameter(help="Whom; else whom the sheet names.")] = None,
    answer: Annotated[
        Literal["invited", "was-present", "did-not-come"], Parameter(help="What came of it.")
    ] = "invited",
    by: By = None,
    words: Words = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say that somebody was invited to a witness point, was present or did not come; the work goes on.

    Example: fitwright work witness brackengill-eleven first_start.run --answer was-present --data demo
    """
    from fitwright.bench.steps import witness_invited

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        taken = witness_invited(
            entering.bench,
            step,
            entering.taking(),
            invited=invited or "",
            answer=_ANSWERS[answer],
            words=words or "",
        )
        return entering.write(taken)


def use(
    build: str,
    consumable: str,
    /,
    *,
    step: Annotated[str | None, Parameter(help="The step that it was used in.")] = None,
    batch: Annotated[str | None, Parameter(help="What its label says.")] = None,
    expires: Annotated[str | None, Parameter(help="Until when it is good: 2031-05 or 2031-05-04.")] = None,
    mixed_at: Annotated[str | None, Parameter(help="When it was mixed or opened: 09:30.")] = None,
    applied_at: Annotated[str | None, Parameter(help="When it was put on; else now.")] = None,
    by: By = None,
    words: Words = None,
    answer: Answer = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say that a consumable was used: its batch, until when it is good, when it was mixed and put on.

    Example: fitwright work use brackengill-eleven jointing --step head.on --batch J-31 --data demo
    """
    from fitwright.bench.consumables import ConsumableTyped, take_consumable

    typed = ConsumableTyped(
        consumable=consumable,
        step=step or "",
        batch=batch or "",
        expires=expires or "",
        mixed_at=mixed_at or "",
        applied_at=applied_at or "",
        note=words or "",
    )
    with opened(data) as shop:
        entering = Entering(shop, build, by=by, answer=answer)
        return entering.write(entering.asked(lambda taking: take_consumable(entering.bench, typed, taking)))


def _next(shop: Shop, build: str) -> Iterator[str]:
    """What can be done now, in a line."""
    able = [each.title for each in shop.assembly(build).can_be_done]
    if able:
        more = f" and {len(able) - 3} more" if len(able) > 3 else ""
        yield f"  Can be done now: {', '.join(able[:3])}{more}.\n"
