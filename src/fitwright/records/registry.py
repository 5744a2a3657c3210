"""Which kinds of entry there are, and a body checked against its kind.

`SHOP_KINDS` count for the whole shop, whatever build they were filed under. Entries of any other
kind count in the build they are filed under. `SHELF_KINDS` filed under no build (a part on the
shelf, measured before any build) count in every build. `BUILD_KINDS` make no sense without a build.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from pydantic import ValidationError

from fitwright.records import kinds
from fitwright.records.canonical import canonical_text
from fitwright.records.entry import Entry, NewEntry
from fitwright.records.errors import BodyError, UnknownKindError
from fitwright.records.fields import hidden_in
from fitwright.records.ids import is_entry_id
from fitwright.records.times import is_moment

KINDS: Mapping[str, type[kinds.Body]] = {
    noun.kind: noun
    for noun in vars(kinds).values()
    if isinstance(noun, type) and issubclass(noun, kinds.Body) and noun is not kinds.Body
}

SHOP_KINDS = frozenset(
    noun.kind
    for noun in (
        kinds.Person,
        kinds.Instrument,
        kinds.Calibration,
        kinds.Setting,
        kinds.CheckBack,
        kinds.BladeSet,
        kinds.GaugeStudy,
        kinds.ShopSetting,
        kinds.PinSet,
    )
)

SHELF_KINDS = frozenset(
    noun.kind
    for noun in (
        kinds.Part,
        kinds.Sitting,
        kinds.Reading,
        kinds.StatedSize,
        kinds.State,
        kinds.ReadingsMoved,
        kinds.Choice,
        kinds.Withdrawal,
    )
)

WORK_KINDS = frozenset(
    noun.kind
    for noun in (
        kinds.Tightening,
        kinds.TighteningCheck,
        kinds.Loosening,
        kinds.HeatCycle,
        kinds.ConsumableUsed,
        kinds.StepDone,
        kinds.WitnessInvited,
        kinds.StepReleased,
        kinds.Concession,
        kinds.DeviationPermit,
        kinds.ReworkOrder,
        kinds.ReworkChecked,
        kinds.Signature,
        kinds.DossierWritten,
    )
)
"""The work of assembly: it changes no size, and so no verdict."""

BUILD_KINDS = (
    frozenset(
        noun.kind
        for noun in (
            kinds.BuildStarted,
            kinds.RevisionTakenOver,
            kinds.Fitting,
            kinds.TakingOut,
            kinds.EyeCheck,
            kinds.LimitAdopted,
            kinds.NotMeasured,
            kinds.NotInThisJob,
            kinds.OilChosen,
            kinds.PressureReading,
        )
    )
    | WORK_KINDS
)

SIGNED_KINDS = frozenset(
    noun.kind for noun in (kinds.StepReleased, kinds.Concession, kinds.DeviationPermit, kinds.Signature)
)
"""They count for nothing without a person; once there is a second one, it takes that person's PIN."""

SECRET_KINDS = frozenset(kind for kind, noun in KINDS.items() if noun.secret)
"""They hold what is shown to nobody."""

Upgrade = Callable[[dict[str, Any]], dict[str, Any]]

UPGRADES: Mapping[tuple[str, int], Upgrade] = {}
"""(kind, version) -> the step that makes a body of that version one of the next; kept for ever."""


def body_of(
    kind: str,
    kind_version: int,
    body: Mapping[str, Any],
    *,
    upgrades: Mapping[tuple[str, int], Upgrade] = UPGRADES,
) -> kinds.Body:
    """The checked body of an entry, brought up to the version of its kind that this program uses.

    Raises
    ------
    UnknownKindError
        If the kind, or this version of it, is not known here.
    BodyError
        If a field is missing, unknown or wrong; the first such field is named.
    """
    noun = KINDS.get(kind)
    if noun is None:
        raise UnknownKindError(kind, kind_version, None)
    if not 1 <= kind_version <= noun.version:
        raise UnknownKindError(kind, kind_version, noun.version)
    data = dict(body)
    for version in range(kind_version, noun.version):
        data = upgrades[kind, version](data)
    try:
        return noun.model_validate_json(json.dumps(data))
    except ValidationError as error:
        raise _body_error(kind, error) from None
    except (TypeError, ValueError, RecursionError) as error:
        raise BodyError(
            kind, "body", f"it is no plain JSON ({error})", "send text, numbers and lists"
        ) from None


def shown_body(entry: Entry | NewEntry) -> dict[str, Any]:
    """The body of an entry as somebody may see it: without what is secret."""
    noun = KINDS.get(entry.kind)
    secret = noun.secret if noun is not None else frozenset[str]()
    return {name: value for name, value in entry.body.items() if name not in secret}


def refusal_of(error: ValidationError) -> BodyError:
    """What is wrong with a body that could not be made, in one sentence."""
    inner = re.sub("(?<=.)(?=[A-Z])", " ", error.title).lower()
    kind = next((noun.kind for noun in KINDS.values() if noun.__name__ == error.title), inner)
    return _body_error(kind, error)


def checked(new: NewEntry) -> tuple[kinds.Body, str]:
    """A new entry's body, checked, and its canonical text.

    Raises
    ------
    UnknownKindError, BodyError
        If the entry is not in order by itself; what it refers to is checked by `rules`.
    """
    if not is_entry_id(new.id):
        raise BodyError(new.kind, "id", f"{new.id!r} is no entry id", "use 32 hex digits in small letters")
    body = body_of(new.kind, new.kind_version, new.body)
    if new.kind in BUILD_KINDS and not new.build:
        raise BodyError(new.kind, "build", "it belongs to a build, and none is named", "name the build")
    if isinstance(body, kinds.BuildStarted) and body.code != new.build:
        wrong = f"it starts {body.code} but is filed under {new.build}"
        raise BodyError(new.kind, "code", wrong, "file it under its own code")
    _refuse_hidden(new)
    if new.client_time is not None and not is_moment(new.client_time):
        wrong = f"{_shown(new.client_time)} is no time"
        raise BodyError(new.kind, "client_time", wrong, "write it as 2031-05-04T09:30:00Z")
    try:
        text = canonical_text(new.body)
        for words in (new.build, new.person, new.device, new.client_time):
            (words or "").encode()
    except (ValueError, RecursionError) as error:
        raise BodyError(new.kind, "body", f"{error}", "send finite numbers and whole characters") from None
    return body, text


def _refuse_hidden(new: NewEntry) -> None:
    """Refuse characters that nobody sees: they could make a page or a terminal say something else."""
    fields = {"build": new.build, "person": new.person, "device": new.device, "client_time": new.client_time}
    for field, words in (*fields.items(), *_texts(new.body)):
        found = hidden_in(words or "")
        if found is not None:
            wrong = f"it holds a character that nobody can see ({found})"
            raise BodyError(new.kind, field, wrong, "type it again by hand")


def _texts(value: Any, way: str = "") -> Iterator[tuple[str, str]]:  # noqa: ANN401  (any JSON)
    """All texts in a body, names of fields included, each with the way to it."""
    if isinstance(value, str):
        yield way, value
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            yield from ((way or "body", name), *_texts(inner, f"{way}.{name}".lstrip(".")))
    elif isinstance(value, Sequence):
        for index, inner in enumerate(value):
            yield from _texts(inner, f"{way}.{index}")


def _body_error(kind: str, error: ValidationError) -> BodyError:
    first = error.errors(include_url=False, include_context=False)[0]
    field = ".".join(str(step) for step in first["loc"]) or "body"
    match first["type"]:
        case "missing":
            return BodyError(kind, field, "it is missing", "fill it in")
        case "extra_forbidden":
            known = ", ".join(KINDS[kind].model_fields) if kind in KINDS else "those it has"
            return BodyError(kind, field, "there is no such field", f"use only: {known}")
        case _:
            says = first["msg"].removeprefix("Value error, ")
            wrong = f"{says[:1].lower()}{says[1:]}, not {_shown(first['input'])}"
            return BodyError(kind, field, wrong, "correct it")


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
