"""A form posted: read, checked for its token, turned into entries, written; what came of it, in words.

Every page that writes goes this way: `sent` reads the form, `written` writes what a page makes of it
and says what came of that. Only after the record has answered is anything called kept.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from pydantic import ValidationError
from starlette.exceptions import HTTPException
from starlette.requests import Request

from fitwright.bench.errors import BenchError
from fitwright.formats.errors import FormatError
from fitwright.model.slips import Question
from fitwright.records.entry import Acknowledgement, NewEntry
from fitwright.records.errors import CannotWriteError, CodeTakenError, IdReusedError, RecordError
from fitwright.records.registry import refusal_of
from fitwright.units import QuantityError
from fitwright.web.hands import Hands
from fitwright.web.security import largest_at
from fitwright.web.shop import WrittenEntries

TRIES = 100
"""So often entries are made anew before somebody is told that another was quicker.

A try is lost only to another entry that was kept, so this many devices may begin the same thing at once.
"""
KEPT, REFUSED, STALE, REUSED, NOT_KEPT = 200, 422, 403, 409, 503


class UnclearFormError(Exception):
    """A form from which it is not plain what was meant."""

    def __init__(self, wrong: str, mend: str) -> None:
        """Say what is unclear, and what to do."""
        self.wrong, self.mend = wrong, mend
        super().__init__(f"{wrong}: {mend}.")


@dataclass(frozen=True, slots=True)
class Sent:
    """A form as it came: single fields stripped, fields that may come several times, files, their names."""

    fields: Mapping[str, str]
    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)

    def get(self, name: str) -> str:
        """A field; nothing where it was left empty or is not there."""
        return self.fields.get(name, "")

    def all(self, name: str) -> tuple[str, ...]:
        """Every value of a field that may come several times, empty ones left out."""
        return tuple(each for each in self.lists.get(name, ()) if each)


@dataclass(frozen=True, slots=True)
class Kept:
    """The entries are durable."""

    acknowledgements: tuple[Acknowledgement, ...]
    touched: frozenset[str]
    status: int = KEPT

    @property
    def words(self) -> str:
        """Which entries they are."""
        seqs = [each.seq for each in self.acknowledgements]
        if len(seqs) == 1:
            return f"Kept as entry {seqs[0]}."
        return f"Kept as entries {seqs[0]} to {seqs[-1]}." if seqs else "Nothing to keep."


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing was kept; why, and what to do. `reused` asks for a fresh entry id."""

    status: int
    words: str
    reused: bool = False


Came = Kept | Refused | Question


async def sent(
    request: Request, *, most_files: int = 0, most_fields: int = 200, as_typed: Collection[str] = ()
) -> Sent:
    """The form that a request brings; the fields of `as_typed` keep the space around them.

    Raises
    ------
    HTTPException
        With 400, if it is no form, or is written in characters that no page of ours asked for.
    """
    try:
        return await _read(request, most_files, most_fields, as_typed)
    except UnicodeError as error:
        raise HTTPException(400) from error


async def _read(request: Request, most_files: int, most_fields: int, as_typed: Collection[str]) -> Sent:
    fields: dict[str, str] = {}
    lists: dict[str, tuple[str, ...]] = {}
    files: dict[str, bytes] = {}
    names: dict[str, str] = {}
    largest = largest_at(request.url.path)  # which the guard holds it to; the parser has no limit of its own
    async with request.form(max_files=most_files, max_fields=most_fields, max_part_size=largest) as form:
        for name, value in form.multi_items():
            f"{name}{value if isinstance(value, str) else value.filename}".encode()  # no half characters
            if isinstance(value, str):
                whole = value.replace("\r\n", "\n")
                text = whole if name in as_typed else whole.strip()
                fields[name] = text
                lists[name] = (*lists.get(name, ()), text)
            else:
                files[name] = await value.read()
                names[name] = value.filename or ""
    return Sent(fields, lists, files, names)


def written(
    hands: Hands,
    form: Sent,
    make: Callable[[], Sequence[NewEntry] | Question],
    *,
    pins: Mapping[str, str] | None = None,
) -> Came:
    """Write what `make` makes of a form; it may ask a question first, or raise what is wrong.

    It is called again where another entry took a code in the meantime. `pins` are those of the people
    who sign what it makes.
    """
    try:
        if not hands.token.matches(form.get("token")):
            return Refused(STALE, OLD_PAGE)
        answer = _made_and_written(hands, make, pins or {})
        if isinstance(answer, Question):
            return answer
    except IdReusedError as error:
        return Refused(REUSED, _used_form(error), reused=True)
    except CannotWriteError as error:
        return Refused(NOT_KEPT, capital(str(error)))
    except (BenchError, FormatError, QuantityError, RecordError, UnclearFormError, ValueError) as error:
        refusal = refusal_of(error) if isinstance(error, ValidationError) else error
        return Refused(REFUSED, capital(str(refusal)))
    return Kept(tuple(answer.acknowledgements), answer.touched)


def _made_and_written(
    hands: Hands, make: Callable[[], Sequence[NewEntry] | Question], pins: Mapping[str, str]
) -> WrittenEntries | Question:
    """Where somebody else took the code that was free when these were made, they are made anew."""
    for _ in range(TRIES):
        with hands.shop.held():
            made, since = make(), hands.shop.position
        if isinstance(made, Question):
            return made
        try:
            return hands.shop.write(made, since=since, pins=pins)
        except CodeTakenError as error:
            taken = error
    raise taken


OLD_PAGE = (
    "This page is from an earlier run of the bench, and nothing was taken. "
    "What you typed stands in the form: take it again."
)


def _used_form(error: IdReusedError) -> str:
    return (
        f"This form was used for another entry before (entry {error.seq}), and nothing was stored. "
        "What you typed stands in the form: send it again to enter it anew."
    )


def capital(words: str) -> str:
    """A sentence with a capital at its beginning."""
    return words[:1].upper() + words[1:]
