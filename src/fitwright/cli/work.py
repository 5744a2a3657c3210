"""`fitwright work`: the order of work of a build, and what is entered of it."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Annotated

from cyclopts import App, Parameter

from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.work_fasteners import heat_cycle, look, loosen, new_set, tighten
from fitwright.cli.work_steps import done, release, use, witness

if TYPE_CHECKING:
    from fitwright.assess.assembly.results import Standing

app = App(name="work", help="Show the order of work; enter steps, tightenings, consumables.")
for _command in (done, release, witness, use, tighten, look, loosen, new_set, heat_cycle):
    app.command(_command)


@app.default
def work(
    build: str,
    step: Annotated[str | None, Parameter(help="One step in full.")] = None,
    /,
    *,
    everything: Annotated[
        bool, Parameter(name="--all", negative="", help="Also what is done, and all that waits.")
    ] = False,
    as_json: Annotated[bool, Parameter(name="--json", negative="", help="Print JSON in SI units.")] = False,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say what can be done now, what is held, what changed since it was done, and what waits for what.

    Example: fitwright work brackengill-eleven --data demo
    """
    with opened(data) as shop:
        standing = shop.assembly(build)
        _check(standing, build, step)
        if as_json:
            _write_json(standing, step)
            return OK
        from fitwright.cli.work_lines import step_lines, work_lines

        lines = step_lines(standing.steps[step]) if step else work_lines(standing, everything=everything)
        sys.stdout.writelines(f"{line}\n" for line in lines)
    return OK


def _check(standing: Standing, build: str, step: str | None) -> None:
    if not standing.steps:
        raise UsageError(f"The sheet of {build} has no order of work: describe its steps in the sheet.")
    if step is not None and step not in standing.steps:
        from fitwright.bench.context import near
        from fitwright.bench.errors import UnknownNameError

        raise UnknownNameError("step", step, near(step, standing.steps) or list(standing.steps))


def _write_json(standing: Standing, step: str | None) -> None:
    from fitwright.formats.standing import standing_as_json, step_as_json

    document = step_as_json(standing.steps[step]) if step is not None else standing_as_json(standing)
    json.dump(document, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")
