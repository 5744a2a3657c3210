"""The engine sheet that the answers make, as the text of its file."""

from __future__ import annotations

from collections.abc import Callable

from fitwright.starter.answers import Answers
from fitwright.starter.blocks import Section
from fitwright.starter.plan import Plan, plan_of
from fitwright.starter.subjects.ancillaries import ancillaries, has_ancillaries
from fitwright.starter.subjects.big_ends import big_ends
from fitwright.starter.subjects.cam_drive import cam_drive
from fitwright.starter.subjects.camshafts import cam_timing, camshafts
from fitwright.starter.subjects.crank import crank, crank_in_block, neighbours
from fitwright.starter.subjects.crank_ends import crank_ends
from fitwright.starter.subjects.cylinders import cylinders
from fitwright.starter.subjects.deck import deck
from fitwright.starter.subjects.dry_sump import dry_sump_pump
from fitwright.starter.subjects.head import chambers, guides_and_seats
from fitwright.starter.subjects.main_bearings import main_bearings
from fitwright.starter.subjects.oil_circuit import oil
from fitwright.starter.subjects.ports import ports
from fitwright.starter.subjects.pump_drive import pump_drive
from fitwright.starter.subjects.pump_gears import gear_pump
from fitwright.starter.subjects.pump_rotors import rotor_pump
from fitwright.starter.subjects.relief_and_pickup import pickup, relief
from fitwright.starter.subjects.rings import rings
from fitwright.starter.subjects.rolling_bearings import rolling_big_ends, rolling_mains
from fitwright.starter.subjects.seals import rear_seal
from fitwright.starter.subjects.springs import springs
from fitwright.starter.subjects.trial_build import trial_build
from fitwright.starter.subjects.valve_gear import lash, valve_gear
from fitwright.starter.surroundings import head_lines
from fitwright.starter.toml_text import section_lines
from fitwright.starter.work.order import assembly

Subject = Callable[[Plan], Section]


def write_sheet(answers: Answers) -> str:
    """A complete, valid, commented engine sheet.

    Parameters
    ----------
    answers : Answers
        The answers to the questions of `new`.

    Returns
    -------
    str
        The text of a sheet in format 1 (TOML); equal answers give equal texts.

    Examples
    --------
    >>> write_sheet(Answers(name="Corrie Five")).splitlines()[0]
    '# Engine sheet of Corrie Five, begun by `fitwright new`.'
    """
    plan = plan_of(answers)
    measured = sections_of(plan)
    sections = (*measured, *assembly(plan, measured))
    lines = list(head_lines(plan, sections))
    for section in sections:
        lines.extend(("", *section_lines(section, plan.units)))
    return "\n".join(lines) + "\n"


def sections_of(plan: Plan) -> tuple[Section, ...]:
    """The sections of a sheet, in the order of the job."""
    return tuple(subject(plan) for subject in subjects_of(plan))


def subjects_of(plan: Plan) -> tuple[Subject, ...]:
    """The subjects that this engine has and that were asked for, in the order of the job."""
    return {
        "all": _everything,
        "bottom-end": _bottom_end,
        "head": _head_alone,
        "pump": _pump_alone,
    }[plan.only](plan)


def _everything(plan: Plan) -> tuple[Subject, ...]:
    timing = (ports,) if plan.two_stroke else (cam_drive, cam_timing)
    return (
        *_bottom_end(plan),
        *_head(plan),
        trial_build,
        *timing,
        *_pump(plan),
        rear_seal,
        *((crank_ends,) if plan.clutch_on_crank else ()),
        *((ancillaries,) if has_ancillaries(plan) else ()),
        oil,
    )


def _bottom_end(plan: Plan) -> tuple[Subject, ...]:
    mains = main_bearings if plan.plain else rolling_mains
    rods = big_ends if plan.plain else rolling_big_ends
    return (crank, mains, crank_in_block, rods, cylinders, rings, deck)


def _head_alone(plan: Plan) -> tuple[Subject, ...]:
    return (neighbours, *_head(plan))


def _pump_alone(plan: Plan) -> tuple[Subject, ...]:
    return (neighbours, *_pump(plan))


def _head(plan: Plan) -> tuple[Subject, ...]:
    valves = () if plan.two_stroke else (guides_and_seats, springs, camshafts, valve_gear, lash)
    return (chambers, *valves)


def _pump(plan: Plan) -> tuple[Subject, ...]:
    if plan.pump == "none":
        return ()
    rotors = plan.pump in {"crank-driven internal rotor", "chain-driven"}
    pump = dry_sump_pump if plan.pump == "dry sump" else rotor_pump if rotors else gear_pump
    return (pump, pump_drive, relief, pickup)
