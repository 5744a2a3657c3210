"""Which limits a set of blades can prove at all, and what blade is missing where it cannot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import Bound, DecisionRule, Verdict
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.readings import Blade, BladeAnswer, BladeReading, Drag
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Number

PLACE = "gap"
HAND = Drag("nobody")
HALVINGS = 24
NEAR = 5.0
"""Standard uncertainties beyond a limit within which a blade may still help."""

Stack = tuple[Blade, ...]


@dataclass(frozen=True, slots=True)
class Bracket:
    """Two blades or stacks that prove the limits if the first goes and the second does not.

    Attributes
    ----------
    goes, does_not_go : tuple of Blade or None
        The blades; None where the limits ask for nothing on that side.
    """

    goes: Stack | None
    does_not_go: Stack | None


@dataclass(frozen=True, slots=True)
class MissingBlade:
    """A blade that would make limits provable, beside one that is in the set.

    Attributes
    ----------
    answer : BladeAnswer
        Which answer the missing blade has to give.
    beside : Blade
        The blade of the set that gives the other answer.
    thinnest, thickest : float [m]
        Range that its thickness must lie in.
    share : float
        Share of the limits that could be proven with the best of that range.
    """

    answer: BladeAnswer
    beside: Blade
    thinnest: Metre
    thickest: Metre
    share: Number


@dataclass(frozen=True, slots=True)
class SetCapability:
    """What a set of blades can prove of limits.

    Attributes
    ----------
    can_prove : bool
        Whether some gap would be proven within.
    brackets : tuple of Bracket
        The pairs that prove it, from thin to thick.
    share : float or None
        Share of the limits that lies between the blades of some bracket; None where one side has no limit.
    missing : tuple of MissingBlade
        Single blades that would help where none do, the most useful first. Empty if two are missing.
    """

    can_prove: bool
    brackets: tuple[Bracket, ...]
    share: Number | None
    missing: tuple[MissingBlade, ...]


def blade_set_can_prove(
    lower: Metre | None,
    upper: Metre | None,
    blades: Sequence[Blade],
    rule: DecisionRule,
    *,
    largest_stack: int = 2,
) -> SetCapability:
    """Say before anything is tried whether a set of blades can prove these limits of a gap.

    Parameters
    ----------
    lower : float [m] or None
        Lower limit, None where there is none.
    upper : float [m] or None
        Upper limit, None where there is none.
    blades : sequence of Blade
        The set.
    rule : DecisionRule
        When a bound counts as proven.
    largest_stack : int
        Most blades in a stack.

    Returns
    -------
    SetCapability
        Whether it can, with which brackets, and what blade is missing if not.

    Raises
    ------
    OutOfDomainError
        If there is no limit, or the lower one lies above the upper.

    Notes
    -----
    Each blade or stack with the next thicker one makes a bracket, which is judged as if the first had gone
    and the second had not. A missing blade is sought by bisection beside each blade near the limits.

    References
    ----------
    [jcgm106_2012] 8.3.2

    Examples
    --------
    >>> coarse = [Blade(f"{t:.2f}", t * 1e-3, 1.5e-6) for t in (0.05, 0.10, 0.15, 0.20)]
    >>> found = blade_set_can_prove(0.040e-3, 0.075e-3, coarse, DecisionRule())
    >>> found.can_prove, found.missing[0].answer.value, f"{found.missing[0].thickest * 1e3:.3f} mm"
    (False, 'does not go', '0.076 mm')
    """
    if lower is None and upper is None:
        raise OutOfDomainError("limits", None, "at least one limit")
    if lower is not None and upper is not None and lower > upper:
        raise OutOfDomainError("lower limit", lower, f"at most the upper limit {upper}")
    limits = _Limits(lower, upper, rule)
    brackets: tuple[Bracket, ...] = ()
    # Single blades are surer in the hand than stacks, which are only looked at where no blade will do.
    for largest in range(1, largest_stack + 1):
        brackets = brackets or tuple(one for one in limits.candidates(blades, largest) if limits.proves(one))
    share = None if lower is None or upper is None else limits.share(brackets)
    missing = () if brackets or share is None else limits.missing(blades)
    return SetCapability(bool(brackets), brackets, share, missing)


@dataclass(frozen=True, slots=True)
class _Limits:
    """Limits of a gap, and what brackets do to them."""

    lower: Metre | None
    upper: Metre | None
    rule: DecisionRule

    @property
    def bounds(self) -> list[Bound]:
        """The limits as bounds."""
        found = [] if self.lower is None else [Bound("lower", self.lower)]
        return found if self.upper is None else [*found, Bound("upper", self.upper)]

    def candidates(self, blades: Sequence[Blade], largest: int) -> list[Bracket]:
        """Every blade or stack near the limits with the next thicker one; one alone for one limit."""
        stacks = sorted(
            (some for size in range(1, largest + 1) for some in combinations(blades, size)), key=_thickness
        )
        if self.upper is None:
            return [Bracket(some, None) for some in stacks if self._reaches(some)]
        if self.lower is None:
            return [Bracket(None, some) for some in stacks if self._reaches(some)]
        both = [Bracket(thin, thick) for thin, thick in pairwise(stacks)]
        return [
            one for one in both if one.goes and one.does_not_go and self._spans(one.goes, one.does_not_go)
        ]

    def proves(self, bracket: Bracket) -> bool:
        """Whether the bracket's answers would prove the limits."""
        readings = []
        if bracket.goes is not None:
            readings.append(BladeReading("goes", PLACE, bracket.goes, BladeAnswer.GOES, HAND))
        if bracket.does_not_go is not None:
            readings.append(
                BladeReading("does not go", PLACE, bracket.does_not_go, BladeAnswer.DOES_NOT_GO, HAND)
            )
        verdict = judge_chain([Term(1.0, (PLACE,))], [], readings, self.bounds, self.rule).verdict
        return verdict is Verdict.WITHIN

    def share(self, brackets: Sequence[Bracket]) -> Number:
        """Share of the limits that lies between the blades of some bracket."""
        if self.lower is None or self.upper is None or self.upper == self.lower:
            return float(bool(brackets))
        covered = 0.0
        for one in brackets:
            if one.goes is not None and one.does_not_go is not None:
                low, high = (
                    max(_thickness(one.goes), self.lower),
                    min(_thickness(one.does_not_go), self.upper),
                )
                covered += max(high - low, 0.0)
        return covered / (self.upper - self.lower)

    def missing(self, blades: Sequence[Blade]) -> tuple[MissingBlade, ...]:
        """Blades that would close a bracket with one of the set."""
        found = []
        for blade in blades:
            for answer in (BladeAnswer.DOES_NOT_GO, BladeAnswer.GOES):
                one = self._beside(blade, answer)
                if one is not None:
                    found.append(one)
        return tuple(sorted(found, key=lambda one: (-one.share, one.thinnest)))

    def _beside(self, blade: Blade, answer: BladeAnswer) -> MissingBlade | None:
        """The range of a new blade beside one that gives the other answer: bisect its far end."""
        if self.lower is None or self.upper is None:
            return None
        near = blade.thickness
        reach = NEAR * blade.standard_uncertainty
        far = self.upper + reach if answer is BladeAnswer.DOES_NOT_GO else max(self.lower - reach, 0.0)
        least = 0.5 * blade.standard_uncertainty if far > near else -0.5 * blade.standard_uncertainty
        if (far - near) * least <= 0.0 or not self.proves(self._pair(blade, near + least, answer)):
            return None
        good, bad = near + least, far
        for _ in range(HALVINGS):
            middle = 0.5 * (good + bad)
            if self.proves(self._pair(blade, middle, answer)):
                good = middle
            else:
                bad = middle
        thinnest, thickest = min(near, good), max(near, good)
        return MissingBlade(answer, blade, thinnest, thickest, self.share([self._pair(blade, good, answer)]))

    @staticmethod
    def _pair(blade: Blade, thickness: Metre, answer: BladeAnswer) -> Bracket:
        new = (Blade("missing", thickness, blade.standard_uncertainty),)
        return Bracket((blade,), new) if answer is BladeAnswer.DOES_NOT_GO else Bracket(new, (blade,))

    def _reaches(self, stack: Stack) -> bool:
        limit = self.lower if self.upper is None else self.upper
        edge = Edge.of(BladeReading("", PLACE, stack, BladeAnswer.GOES, HAND))[0]
        return limit is not None and abs(edge.mean - limit) <= limit + NEAR * edge.standard_uncertainty

    def _spans(self, thin: Stack, thick: Stack) -> bool:
        if self.lower is None or self.upper is None:
            return False
        reach = NEAR * max(blade.standard_uncertainty for blade in (*thin, *thick)) + 0.1 * self.upper
        return _thickness(thin) >= self.lower - reach and _thickness(thick) <= self.upper + reach


def _thickness(stack: Stack) -> Metre:
    return Edge.of(BladeReading("", PLACE, stack, BladeAnswer.GOES, HAND))[0].mean
