"""Who signed what, with which meaning; the secrets by which people are known; dossiers written."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.records.fields import Code, Words
from fitwright.records.kinds.body import Body


class PinSet(Body):
    """A person's PIN, as nobody can read it: salted and hardened (scrypt, RFC 7914).

    `vouched_by` is the other person who was there where a forgotten one was set anew.
    """

    kind: ClassVar[str] = "PIN set"
    secret: ClassVar[frozenset[str]] = frozenset({"salt", "hardened"})
    corrected: ClassVar[bool] = False
    person: Code
    salt: Annotated[str, Field(pattern=r"^([0-9a-f]{2}){16,64}$")]
    hardened: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    cost: Annotated[int, Field(ge=2**14, le=2**20)]
    block_size: Annotated[int, Field(ge=1, le=32)] = 8
    parallel: Annotated[int, Field(ge=1, le=16)] = 1
    vouched_by: Code | None = None


class Signature(Body):
    """A person signs: performed, checked or released; what is signed, and the record as it then stood.

    `subject` is `dossier`, a step, a tightening group, a concession's code. `seq` and `hash` are the
    last entry that the signature speaks for. `later` as in a release.
    """

    kind: ClassVar[str] = "signature"
    corrected: ClassVar[bool] = False
    subject: str
    meaning: Literal["performed", "checked", "released"]
    signed_by: Code
    seq: Annotated[int, Field(ge=0)]
    hash: str
    later: bool = False
    words: Words | None = None


class DossierWritten(Body):
    """A dossier was written: its revision, what it replaces, and the head of the record it shows."""

    kind: ClassVar[str] = "dossier written"
    corrected: ClassVar[bool] = False
    revision: Annotated[int, Field(ge=1)]
    depth: Literal["owner", "complete"]
    paper: Literal["A4", "Letter"]
    units: Literal["mm", "inch"] | None = None
    seq: Annotated[int, Field(ge=0)]
    hash: str
    data_digest: str
    replaces: str | None = None
