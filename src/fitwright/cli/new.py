"""`fitwright new`: an engine sheet from a few questions or flags.

The flags are the questions of `starter`, one each; they are put into the signature of `new` here,
so that a question is worded once and asked, offered and documented alike.
"""

from __future__ import annotations

import inspect
import sys
from pathlib import Path
from typing import Annotated, Any

from cyclopts import Parameter

from fitwright.cli.errors import INPUT, OK, UsageError
from fitwright.cli.terminal import Terminal
from fitwright.starter.answers import Answers
from fitwright.starter.errors import AnswerError
from fitwright.starter.questions import QUESTIONS, Question, answers_from_words, questions_for


def _new(
    file: Annotated[Path | None, Parameter(help="File to write; else made from the short name.")] = None,
    /,
    *,
    force: Annotated[bool, Parameter(negative="", help="Write over a file that is there.")] = False,
    ask: Annotated[
        bool | None,
        Parameter(help="Ask what no flag answers; else asked in a terminal if no name is given."),
    ] = None,
    **words: str | None,
) -> int:
    """Write an engine sheet from a few questions: complete, commented, with rule-of-thumb limits.

    Lengths take a unit, or are in the shop's unit. What is not answered is taken as usual for such
    an engine, and the sheet says which sizes are to be replaced.

    Example: fitwright new engine.toml --name "My engine" --arrangement inline --cylinders 4 --bore "83.5 mm"
    """
    given = {name: text for name, text in words.items() if text is not None}
    asking = sys.stdin.isatty() and "name" not in given if ask is None else ask
    answers = _asked(given) if asking else answers_from_words(given)
    target = file or Path(f"{_short_name(answers)}.toml")
    if target.exists() and not force:
        raise UsageError(f"{target} is there already: name another file, or say --force to write over it.")
    return _write(answers, target)


def _write(answers: Answers, target: Path) -> int:
    from fitwright.formats.sheet import check_sheet
    from fitwright.starter.sheet import write_sheet

    text = write_sheet(answers)
    sheet, problems = check_sheet(text, name=str(target))
    if problems or sheet is None:
        # What the answers make is tested to be valid; should it not be, nobody gets a broken sheet.
        sys.stderr.writelines(f"{problem}\n" for problem in problems)
        return INPUT
    target.write_text(text, encoding="utf-8")
    counts = f"{len(sheet.dimensions)} dimensions, {len(sheet.fits)} fits, {len(sheet.stations)} stations"
    work = f"{len(sheet.tightening_groups)} tightening groups, {len(sheet.steps)} steps"
    sys.stdout.write(
        f"{target}: {sheet.engine.name}, {counts}, {work}.\n"
        "Its limits are rules of thumb, labelled so: put the maker's in their place, with their source.\n"
        "Its joints have no value yet: type the maker's threads, lubricants and torques.\n"
        f"Next: fitwright sheet validate {target}\n"
        f"      fitwright build start {target} JOB\n"
    )
    return OK


def _short_name(answers: Answers) -> str:
    from fitwright.starter.plan import plan_of

    return plan_of(answers).engine_id


def _asked(given: dict[str, str]) -> Answers:
    """The answers typed one by one; an empty line takes what is usual, a wrong one is asked again."""
    terminal = Terminal()
    terminal.say("An empty line takes what stands in brackets.")
    known = dict(given)
    done: set[str] = set(given)
    while True:
        question = next((each for each in questions_for(known) if each.name not in done), None)
        if question is None:
            return answers_from_words(known)
        text = terminal.ask(_prompt(question))
        if text is None:
            raise UsageError("The questions were not answered to their end; no sheet was written.")
        if _fits(known, question, text, terminal):
            done.add(question.name)
            if text:
                known[question.name] = text


def _fits(known: dict[str, str], question: Question, text: str, terminal: Terminal) -> bool:
    if not text and question.name != "name":
        return True
    try:
        answers_from_words({**known, question.name: text})
    except AnswerError as error:
        if error.question == question.name:
            terminal.say(f"! {error}")
            return False
    return True


def _prompt(question: Question) -> str:
    if question.name == "name":
        return f"{question.text} "
    choices = f" ({', '.join(question.choices)})" if question.choices else ""
    return f"{question.text}{choices} [{question.default}] "


def _flags() -> list[inspect.Parameter]:
    """One flag for each question, with its words as help."""
    return [
        inspect.Parameter(
            question.name,
            inspect.Parameter.KEYWORD_ONLY,
            default=None,
            annotation=Annotated[str | None, Parameter(help=_help(question), show_default=False)],
        )
        for question in QUESTIONS
    ]


def _help(question: Question) -> str:
    choices = f" One of: {', '.join(question.choices)}." if question.choices else ""
    return f"{question.text}{choices} Else: {question.default}."


def new(*arguments: Any, **words: Any) -> int:  # noqa: ANN401, D103  (its story is told by _new)
    return _new(*arguments, **words)


_own = [
    each
    for each in inspect.signature(_new, eval_str=True).parameters.values()
    if each.kind != each.VAR_KEYWORD
]
new.__doc__ = _new.__doc__
new.__signature__ = inspect.Signature([*_own, *_flags()], return_annotation=int)  # type: ignore[attr-defined]
new.__annotations__ = {each.name: each.annotation for each in (*_own, *_flags())} | {"return": int}
