"""Which limits govern: what a verdict may rest on, bound by bound.

A limit that is flagged governs; one that stands alone governs unflagged; a rule of thumb governs
only where nothing much hangs on the fit and nobody else has said anything. Limits for used parts
and adopted limits go over the others for the bounds that they give: a wear limit that has an upper
bound only leaves the lower bound of new parts in force. Limits given for a hot state are ruled by
themselves.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from fitwright.model.amount import Written
from fitwright.model.limit import AppliesTo, Limit, LimitClass, Source, SourceKind

BoundSide: TypeAlias = Literal["lower", "upper"]
SIDES: Final[tuple[BoundSide, BoundSide]] = ("lower", "upper")


@dataclass(frozen=True, slots=True)
class Adopted:
    """A limit that a named person adopted; bounds not stated anew are those of its source."""

    source: str
    adopted_by: str
    lower: Written | None = None
    upper: Written | None = None


@dataclass(frozen=True, slots=True)
class RuledLimit:
    """A limit, whether it governs, and who adopted it if somebody did."""

    limit: Limit
    governs: bool
    adopted_by: str | None = None


def rule_limits(
    limits: Sequence[Limit],
    limit_class: LimitClass,
    sources: Mapping[str, Source],
    *,
    used: bool = False,
    adopted: Adopted | None = None,
) -> tuple[RuledLimit, ...]:
    """All limits of a fit or dimension, each with whether it governs.

    Parameters
    ----------
    limits : sequence of Limit
        The limits in the sheet.
    limit_class : LimitClass
        How much hangs on the subject: where it is critical, no rule of thumb governs by itself.
    sources : mapping of str to Source
        Where limits come from.
    used : bool
        Whether its parts are declared used.
    adopted : Adopted, optional
        The limit that a person adopted last.

    Returns
    -------
    tuple of RuledLimit
        In the order of the sheet, an adopted limit last. A limit of which one bound only governs
        is given as two, one for each bound.
    """
    ruled: list[RuledLimit] = []
    taken = _adopted_limit(limits, adopted) if adopted is not None else None
    governing = {
        case: _governing(
            [limit for limit in limits if limit.temperature_case == case],
            limit_class,
            sources,
            used=used,
            taken=taken if case is None else None,
        )
        for case in dict.fromkeys([None, *(limit.temperature_case for limit in limits)])
    }
    for limit in limits:
        chosen = governing[limit.temperature_case]
        ruled.extend(_ruled(limit, [side for side in SIDES if chosen.get(side) is limit]))
    if taken is not None and adopted is not None:
        ruled.append(RuledLimit(taken, governs=True, adopted_by=adopted.adopted_by))
    return tuple(ruled)


def is_rule_of_thumb(limit: Limit, sources: Mapping[str, Source]) -> bool:
    """Whether a rule of thumb stands behind a limit."""
    source = sources.get(limit.source)
    return source is not None and source.kind is SourceKind.RULE_OF_THUMB


def _governing(
    limits: Sequence[Limit],
    limit_class: LimitClass,
    sources: Mapping[str, Source],
    *,
    used: bool,
    taken: Limit | None,
) -> dict[BoundSide, Limit]:
    """The limit that governs each bound in one state of temperature."""
    chosen = _chosen(_for(limits, AppliesTo.NEW), limit_class, sources)
    if used:
        chosen.update(_chosen(_for(limits, AppliesTo.USED), limit_class, sources))
    if taken is not None:
        chosen.update({side: taken for side in SIDES if getattr(taken, side) is not None})
    return chosen


def _for(limits: Sequence[Limit], applies_to: AppliesTo) -> list[Limit]:
    return [limit for limit in limits if limit.applies_to is applies_to]


def _chosen(
    limits: Sequence[Limit], limit_class: LimitClass, sources: Mapping[str, Source]
) -> dict[BoundSide, Limit]:
    stated = [limit for limit in limits if not is_rule_of_thumb(limit, sources)]
    flagged = [limit for limit in stated if limit.governs]
    candidates = flagged or stated
    if not stated and limit_class is LimitClass.NORMAL:
        candidates = list(limits)
    chosen: dict[BoundSide, Limit] = {}
    for side in SIDES:
        giving = [limit for limit in candidates if getattr(limit, side) is not None]
        if len(giving) == 1:
            chosen[side] = giving[0]
    return chosen


def _adopted_limit(limits: Sequence[Limit], adopted: Adopted) -> Limit:
    of_source = next(
        (limit for limit in limits if limit.source == adopted.source and limit.temperature_case is None),
        Limit(None, None, adopted.source),
    )
    return replace(
        of_source,
        lower=adopted.lower or of_source.lower,
        upper=adopted.upper or of_source.upper,
        governs=True,
    )


def _ruled(limit: Limit, sides: Sequence[BoundSide]) -> list[RuledLimit]:
    """The limit as a whole, or its two bounds apart where only one governs."""
    given = [side for side in SIDES if getattr(limit, side) is not None]
    if len(given) == len(sides) or not sides:
        return [RuledLimit(limit, governs=bool(sides))]
    return [
        RuledLimit(replace(limit, lower=None), governs="upper" in sides),
        RuledLimit(replace(limit, upper=None), governs="lower" in sides),
    ][::-1]
