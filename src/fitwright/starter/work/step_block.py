"""A step of the order of work before it is text."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.starter.blocks import TableBlock, Value
from fitwright.starter.family import ONE, Family

SECOND_PERSON = "a second person"
_LISTS = (
    "after",
    "fits",
    "tightened",
    "cured",
    "tightens",
    "eye_checks",
    "replaces",
    "uses",
    "hides",
    "cautions",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepBlock:
    """One step (or one for each cylinder), with the keys of the sheet format; lists hold templates.

    `photos` are pairs of id and words. `point` is "hold" or "witness"; a hold point invites a second
    person.
    """

    key: str
    title: str
    stage: str
    after: tuple[str, ...] = ()
    fits: tuple[str, ...] = ()
    tightened: tuple[str, ...] = ()
    cured: tuple[str, ...] = ()
    tightens: tuple[str, ...] = ()
    eye_checks: tuple[str, ...] = ()
    replaces: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()
    hides: tuple[str, ...] = ()
    photos: tuple[tuple[str, str], ...] = ()
    point: str | None = None
    cautions: tuple[str, ...] = ()
    note: str | None = None
    family: Family = ONE
    comment: tuple[str, ...] = ()

    def table(self) -> TableBlock:
        """Its table."""
        values: dict[str, Value] = {"title": self.title, "stage": self.stage}
        values |= {name: listed for name in _LISTS if (listed := getattr(self, name))}
        if self.photos:
            values["photos"] = tuple({"id": name, "words": words} for name, words in self.photos)
        if self.point is not None:
            values["point"] = f"{self.point} point"
        if self.point == "hold":
            values["invited"] = SECOND_PERSON
        if self.note is not None:
            values["note"] = self.note
        return TableBlock(
            section="steps", key=self.key, values=values, family=self.family, comment=self.comment
        )
