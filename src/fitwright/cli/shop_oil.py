"""The oil of a build, and what the gauge showed at its first start: each command makes one entry."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import Person, Reason, entry_named
from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fitwright.records.entry import NewEntry
    from fitwright.wiring import Shop

Answer = Annotated[str | None, Parameter(help="Answer to a question about what was typed: a guess, or keep.")]
InsteadOf = Annotated[str | None, Parameter(help="Number of the entry that it corrects; with a --reason.")]


def oil(
    build: str,
    oil: Annotated[str | None, Parameter(help="Id of an oil of the sheet.")] = None,
    /,
    *,
    grade: Annotated[str | None, Parameter(help="SAE grade, where there is no data sheet: 10W-40.")] = None,
    title: Annotated[str | None, Parameter(help="What a data sheet calls the oil.")] = None,
    viscosity_40: Annotated[str | None, Parameter(help="Kinematic viscosity at 40 °C.")] = None,
    viscosity_100: Annotated[str | None, Parameter(help="Kinematic viscosity at 100 °C.")] = None,
    high_shear_viscosity: Annotated[str | None, Parameter(help="High-shear viscosity at 150 °C.")] = None,
    density: Annotated[str | None, Parameter(help="Density at 15 °C.")] = None,
    source: Annotated[str | None, Parameter(help="Whose data sheet it is, and of when.")] = None,
    instead_of: InsteadOf = None,
    reason: Reason = None,
    answer: Answer = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter which oil a build is filled with: one of the sheet, a data sheet, or a grade; the latest counts.

    Example: fitwright shop oil corrie-five --title "Running-in oil" --viscosity-40 "98 mm2/s"
    --viscosity-100 "10.9 mm2/s" --source "data sheet of 2031"
    """
    from fitwright.bench.oil_choice import OilTyped, choose_oil
    from fitwright.bench.work_taking import EntryTaking
    from fitwright.cli.answering import answered
    from fitwright.cli.terminal import Terminal

    chosen = OilTyped(
        oil=oil or "",
        grade=grade or "",
        title=title or "",
        kinematic_viscosity_40=viscosity_40 or "",
        kinematic_viscosity_100=viscosity_100 or "",
        high_shear_viscosity_150=high_shear_viscosity or "",
        density_15=density or "",
        source=source or "",
    )
    with opened(data) as shop:
        bench, who, wrong = shop.bench(build), _who(shop, person), _wrong(shop, build, instead_of)
        taken = answered(
            lambda answers: choose_oil(
                bench, chosen, EntryTaking(person=who, answers=answers, supersedes=wrong, reason=reason)
            ),
            answer,
            Terminal(),
        )
        return _enter(shop, taken.entries, f"{build} is {taken.words}", taken.cautions)


def pressure_reading(
    build: str,
    speed: Annotated[str, Parameter(help="Speed of the crank, rev/min.")],
    temperature: Annotated[str, Parameter(help="Temperature of the oil.", allow_leading_hyphen=True)],
    gauge: Annotated[str, Parameter(help="What the needle showed.", allow_leading_hyphen=True)],
    /,
    *,
    zero: Annotated[
        str | None, Parameter(help="What the gauge shows vented.", allow_leading_hyphen=True)
    ] = None,
    seconds: Annotated[str | None, Parameter(help="Time until the gauge first lifted.")] = None,
    instrument: Annotated[str | None, Parameter(help="Code of the gauge on the shelf.")] = None,
    step: Annotated[
        str | None, Parameter(help="What was being done: cranking, reference idle, warm.")
    ] = None,
    oil: Annotated[str | None, Parameter(help="Another oil than the build is filled with.")] = None,
    measured_by: Annotated[str | None, Parameter(help="Who read it; else who enters it.")] = None,
    taken_at: Annotated[str | None, Parameter(help="Date and time, as 2031-05-04 09:30.")] = None,
    note: str | None = None,
    instead_of: InsteadOf = None,
    reason: Reason = None,
    answer: Answer = None,
    person: Person = None,
    units: Annotated[Literal["mm", "inch"] | None, Parameter(help="Units of numbers without one.")] = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter one oil pressure: speed of the crank, oil temperature, and what the needle showed.

    Several in a row are quicker with `fitwright first-start`.

    Example: fitwright shop pressure-reading corrie-five 900 "92 degC" "2.4 bar" --zero "0.1 bar"
    --step "reference idle" --data demo
    """
    from fitwright.bench.first_start import PressureTaking, PressureTyped, take_pressure
    from fitwright.cli.answering import answered
    from fitwright.cli.terminal import Terminal

    read = PressureTyped(
        speed=speed,
        temperature=temperature,
        gauge=gauge,
        zero=zero or "",
        seconds=seconds or "",
        instrument=instrument or "",
        oil=oil or "",
        step=step or "",
        measured_by=measured_by or "",
        taken_at=taken_at or "",
        note=note or "",
    )
    with opened(data) as shop:
        bench, who, wrong = shop.bench(build), _who(shop, person), _wrong(shop, build, instead_of)
        family = family_of(shop, build, units)
        taken = answered(
            lambda answers: take_pressure(
                bench,
                read,
                PressureTaking(family=family, person=who, answers=answers, supersedes=wrong, reason=reason),
            ),
            answer,
            Terminal(),
        )
        return _enter(shop, taken.entries, taken.words, taken.cautions)


def _who(shop: Shop, person: str | None) -> str | None:
    from fitwright.bench.sittings import person_named

    return person_named(shop.state, person) if person is not None else None


def _wrong(shop: Shop, build: str, number: str | None) -> str | None:
    """The entry to be corrected."""
    if number is None:
        return None
    found = entry_named(shop, number)
    if found.build != build:
        raise UsageError(f"Entry {found.seq} is none of {build}: name one of its own.")
    return found.id


def _enter(shop: Shop, entries: Sequence[NewEntry], words: str, cautions: Sequence[str]) -> int:
    written = shop.write(entries)
    sys.stdout.write(f"{words} (entry {written.acknowledgements[0].seq}).\n")
    sys.stdout.writelines(f"! {each}\n" for each in cautions)
    return OK
