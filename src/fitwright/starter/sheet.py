"""The engine sheet that the answers make, as the text of its file."""

from __future__ import annotations

from collections.abc import Callable

from fitwright.starter.answers import Answers
from fitwright.starter.big_ends import big_ends
from fitwright.starter.blocks import Section
from fitwright.starter.crank import crank, crank_in_block
from fitwright.starter.main_bearings import main_bearings
from fitwright.starter.plan import Plan, plan_of
from fitwright.starter.rolling_bearings import rolling_big_ends, rolling_mains
from fitwright.starter.surroundings import head_lines
from fitwright.starter.toml_text import section_lines

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
    sections = sections_of(plan)
    lines = list(head_lines(plan, sections))
    for section in sections:
        lines.extend(("", *section_lines(section, plan.units)))
    return "\n".join(lines) + "\n"


def sections_of(plan: Plan) -> tuple[Section, ...]:
    """The sections of a sheet, in the order of the job."""
    return tuple(subject(plan) for subject in subjects_of(plan))


def subjects_of(plan: Plan) -> tuple[Subject, ...]:
    """The subjects that this engine has and that were asked for."""
    mains = main_bearings if plan.plain else rolling_mains
    rods = big_ends if plan.plain else rolling_big_ends
    return (crank, mains, crank_in_block, rods)
