"""Steps of the order of work: done, witnessed, released."""

from __future__ import annotations

from typing import ClassVar, Literal

from fitwright.records.fields import Code, Words
from fitwright.records.kinds.body import Body


class StepDone(Body):
    """The work of a step was done. It is refused while the step waits for something."""

    kind: ClassVar[str] = "step done"
    corrected: ClassVar[bool] = False
    step: str
    done_by: Code | None = None
    words: Words | None = None


class WitnessInvited(Body):
    """The named person was invited to a witness point; the work goes on."""

    kind: ClassVar[str] = "witness invited"
    step: str
    invited: Words
    answer: Literal["invited", "was present", "did not come"] = "invited"
    words: Words | None = None


class StepReleased(Body):
    """A named person released a hold point. It is refused unless everything it holds for is true.

    `later` says that a lone builder releases his own work, having looked again later.
    """

    kind: ClassVar[str] = "step released"
    corrected: ClassVar[bool] = False
    step: str
    released_by: Code
    later: bool = False
    words: Words | None = None
