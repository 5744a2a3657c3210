"""Stages of a pump on one shaft: what a dry sump's scavenge stages carry beside its pressure stage."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import CubicMetre, Number


class Purpose(StrEnum):
    """What a stage is for."""

    PRESSURE = "pressure"
    SCAVENGE = "scavenge"


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of a pump.

    Attributes
    ----------
    name : str
        What the stage is called.
    purpose : Purpose
        Whether it feeds the engine or empties the sump.
    displacement : float [m3]
        For each revolution of the stage's own shaft.
    speed_ratio : float [1]
        Speed of that shaft over that of the crank.
    """

    name: str
    purpose: Purpose
    displacement: CubicMetre
    speed_ratio: Number


@dataclass(frozen=True, slots=True)
class StageBalance:
    """What all stages together displace.

    Attributes
    ----------
    pressure_displacement : float [m3]
        Of the pressure stages, for each revolution of the crank.
    scavenge_displacement : float [m3]
        Of the scavenge stages, likewise.
    ratio : float [1]
        Scavenge over pressure; NaN without scavenge stages.
    share : tuple of float [1]
        Share of each stage in the displacement of its purpose, in the order given.
    cautions : tuple of str
        What to know before using the numbers.
    """

    pressure_displacement: CubicMetre
    scavenge_displacement: CubicMetre
    ratio: Number
    share: tuple[float, ...]
    cautions: tuple[str, ...]


def stage_balance(stages: Sequence[Stage]) -> StageBalance:
    r"""Displacement of the scavenge stages over that of the pressure stages.

    Parameters
    ----------
    stages : sequence of Stage
        All stages; at least one of them a pressure stage.

    Returns
    -------
    StageBalance
        Displacements for each revolution of the crank, and their ratio.

    Raises
    ------
    OutOfDomainError
        If there is no pressure stage, or a displacement or ratio of speed is not positive.

    Notes
    -----
    .. math:: \frac{\sum_{scavenge} i_k V_k}{\sum_{pressure} i_k V_k}

    A scavenge stage carries oil with air, so that it has to displace more than the oil that comes down; at
    a ratio of one or less the sump fills whatever else is right.

    References
    ----------
    [ivantysyn2001] displacement and speed; the sum is this project's

    Examples
    --------
    >>> found = stage_balance([
    ...     Stage("pressure", Purpose.PRESSURE, 12e-6, 0.6), Stage("front", Purpose.SCAVENGE, 11e-6, 0.6),
    ...     Stage("rear", Purpose.SCAVENGE, 11e-6, 0.6)])
    >>> round(found.ratio, 3)
    1.833
    """
    for stage in stages:
        if not (stage.displacement > 0.0 and stage.speed_ratio > 0.0):
            raise OutOfDomainError(stage.name, stage, "of positive displacement and ratio of speed")
    carried = [stage.displacement * stage.speed_ratio for stage in stages]
    total = {
        purpose: sum(each for each, stage in zip(carried, stages, strict=True) if stage.purpose is purpose)
        for purpose in Purpose
    }
    pressure, scavenge = total[Purpose.PRESSURE], total[Purpose.SCAVENGE]
    if not pressure > 0.0:
        raise OutOfDomainError("stages", [stage.name for stage in stages], "with a pressure stage")
    ratio = scavenge / pressure if scavenge else math.nan
    too_little = "The scavenge stages displace no more than the pressure stage: the sump would fill."
    return StageBalance(
        pressure_displacement=pressure,
        scavenge_displacement=scavenge,
        ratio=ratio,
        share=tuple(each / total[stage.purpose] for each, stage in zip(carried, stages, strict=True)),
        cautions=(too_little,) if ratio <= 1.0 else (),
    )
