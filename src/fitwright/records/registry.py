"""Which kinds of entry there are, and a body checked against its kind.

`SHOP_KINDS` count for the whole shop, whatever build they were filed under. Entries of any other
kind count in the build they are filed under. `SHELF_KINDS` filed under no build (a part on the
shelf, measured before any build) count in every build. `BUILD_KINDS` make no sense without a build.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from pydantic import ValidationError

from fitwright.records import kinds
from fitwright.records.canonical import canonical_text
from fitwright.records.entry import NewEntry
from fitwright.records.errors import BodyError, UnknownKindError
from fitwright.records.ids import is_entry_id

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
        kinds.ShopSetting,
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

BUILD_KINDS = frozenset(
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
    )
)

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
    try:
        text = canonical_text(new.body)
        for words in (new.build, new.person, new.device, new.client_time):
            (words or "").encode()
    except (ValueError, RecursionError) as error:
        raise BodyError(new.kind, "body", f"{error}", "send finite numbers and whole characters") from None
    return body, text


def _body_error(kind: str, error: ValidationError) -> BodyError:
    first = error.errors(include_url=False, include_context=False)[0]
    field = ".".join(str(step) for step in first["loc"]) or "body"
    match first["type"]:
        case "missing":
            return BodyError(kind, field, "it is missing", "fill it in")
        case "extra_forbidden":
            known = ", ".join(KINDS[kind].model_fields)
            return BodyError(kind, field, "there is no such field", f"use only: {known}")
        case _:
            wrong = f"{first['msg'][:1].lower()}{first['msg'][1:]}, not {_shown(first['input'])}"
            return BodyError(kind, field, wrong, "correct it")


def _shown(value: object) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
