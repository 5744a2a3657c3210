"""What a fastener's property class promises, as numbers."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.physics.numerics.domain import require_above_zero
from fitwright.quantity import Pascal


@dataclass(frozen=True, slots=True)
class Strength:
    """Strength of a fastener's material.

    Attributes
    ----------
    tensile_strength : float [Pa]
        Smallest tensile strength, Rm.
    yield_strength : float [Pa]
        Smallest stress at 0.2 % set, Rp0.2; of soft classes the lower yield strength.
    proof_stress : float [Pa]
        Stress under proof load, Sp, under which a fastener must not lengthen for good.

    Raises
    ------
    OutOfDomainError
        If one of them is not above zero.
    """

    tensile_strength: Pascal
    yield_strength: Pascal
    proof_stress: Pascal

    def __post_init__(self) -> None:
        require_above_zero(
            tensile_strength=self.tensile_strength,
            yield_strength=self.yield_strength,
            proof_stress=self.proof_stress,
        )
