"""What is said of a build when it is started: read from a form, and shown in it again."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from pydantic import ValidationError

from fitwright.bench.errors import BenchError
from fitwright.bench.starting import build_started, code_from
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import BuildStarted
from fitwright.records.registry import refusal_of
from fitwright.web.writing import Sent


@dataclass(frozen=True, slots=True)
class AboutBuild:
    """What is said of the build itself; `wrong` is about the field `wrong_about`, or about none."""

    title: str
    code: str
    job_number: str
    engine_number: str
    duty: str
    owner_words: str
    wrong: str
    wrong_about: str


def about_build(form: Sent) -> AboutBuild:
    """What was typed of the build."""
    return AboutBuild(
        title=form.get("title"),
        code=form.get("code"),
        job_number=form.get("job_number"),
        engine_number=form.get("engine_number"),
        duty=form.get("duty"),
        owner_words=form.get("owner_words"),
        wrong="",
        wrong_about="",
    )


def faulted(about: AboutBuild, form: Sent, sheet: Sheet, taken: Collection[str]) -> AboutBuild:
    """The same with what is wrong in it, where something is."""
    try:
        started_from(form, sheet, taken)
    except BenchError as error:
        return replace(about, wrong=str(error), wrong_about="code")
    except ValidationError as error:
        refusal = refusal_of(error)
        return replace(about, wrong=f"{refusal.wrong}; {refusal.mend}.", wrong_about=refusal.field)
    return about


def started_from(form: Sent, sheet: Sheet, taken: Collection[str]) -> BuildStarted:
    """The start of a build as a form says it; without a code, one made from its job number or title.

    Raises
    ------
    BenchError, ValidationError
        If it cannot be started so.
    """
    job, title = form.get("job_number"), form.get("title")
    code = form.get("code") or code_from(f"job {job}" if job else title or sheet.engine.name, taken)
    return build_started(
        code,
        sheet,
        taken=taken,
        title=title or None,
        job_number=job or None,
        engine_number=form.get("engine_number") or None,
        owner_words=form.get("owner_words") or None,
        duty=form.get("duty") or None,
    )
