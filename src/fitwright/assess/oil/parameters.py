"""The sizes of the circuit as parameters of its computation: what is measured, and what may be moved.

A size that is measured is the parameter of its fit or dimension (`main.1.running_clearance`);
an amount that stands in the circuit itself is one of its own (`paths.jets.diameter`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fitwright.assess.oil.sizes import KnownSize, known_size
from fitwright.model.circuit import Reference, Size, SizeRule, factor_between, size_rules
from fitwright.model.dimension import Sense
from fitwright.physics.network.sizes import Named

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass
class Parameters:
    """Collects every parameter of a circuit while it is put together.

    `values` are the best values [SI]; `measured` what is known of those that refer to the sheet, in the
    order in which they are met; `used_by` which parts of the circuit follow each parameter.
    """

    judge: Judge
    values: dict[str, float] = field(default_factory=dict)
    measured: dict[str, KnownSize] = field(default_factory=dict)
    used_by: dict[str, list[str]] = field(default_factory=dict)

    def of(self, owner: str, part: object, name: str, *, scale: float = 1.0) -> Named | None:
        """The parameter behind one size of a part; None where the sheet leaves the size out.

        `scale` multiplies it: 0.5 makes a radial clearance of a diametral one.
        """
        size: Size | None = getattr(part, name)
        return None if size is None else self.named(owner, name, size, size_rules(type(part))[name], scale)

    def named(self, owner: str, name: str, size: Size, rule: SizeRule, scale: float = 1.0) -> Named:
        """The parameter behind one given size."""
        key = self.key(owner, name, size)
        if isinstance(size, Reference):
            self.values[key] = self._known(size.subject).value
            found = Named(key, self.factor(size, rule.sense) * scale)
        else:
            self.values[key] = size.si
            found = Named(key, scale)
        users = self.used_by.setdefault(found.parameter, [])
        if owner not in users:
            users.append(owner)
        return found

    @staticmethod
    def key(owner: str, name: str, size: Size) -> str:
        """The name of the parameter that a given size is."""
        return size.subject if isinstance(size, Reference) else f"{owner}.{name}"

    def look_up(self, size: Size) -> None:
        """Find out what is known of a size, if it refers to the sheet."""
        if isinstance(size, Reference):
            self._known(size.subject)

    def number(self, part: object, name: str, usual: float) -> float:
        """The best value of a size that cannot be moved; `usual` where the sheet leaves it out."""
        size: Size | None = getattr(part, name)
        return usual if size is None else self.best(size, size_rules(type(part))[name].sense)

    def best(self, size: Size, wanted: Sense | None) -> float:
        """The best value of a given size, as stated in the sense wanted."""
        if isinstance(size, Reference):
            return self._known(size.subject).value * self.factor(size, wanted)
        return size.si

    def factor(self, size: Size, wanted: Sense | None) -> float:
        """What the value behind a given size is multiplied by to be stated in the sense wanted."""
        if not isinstance(size, Reference):
            return 1.0
        sheet = self.judge.sheet
        given = (sheet.fits.get(size.subject) or sheet.dimensions[size.subject]).sense
        return factor_between(given, wanted)

    def _known(self, subject: str) -> KnownSize:
        found = self.measured.get(subject)
        if found is None:
            found = self.measured[subject] = known_size(self.judge, subject)
        return found
