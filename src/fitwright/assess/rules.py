"""The decision rule per limit class, as the shop has set it."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.model.limit import LimitClass
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.records.projection import ShopState


@dataclass(frozen=True, slots=True)
class Rules:
    """When a bound counts as proven: for critical and for normal fits."""

    critical: DecisionRule
    normal: DecisionRule

    def of(self, limit_class: LimitClass) -> DecisionRule:
        """The rule for a class of limits."""
        return self.critical if limit_class is LimitClass.CRITICAL else self.normal


def rules_of(shop: ShopState) -> Rules:
    """The shop's rules; 0.95 where it has set none. A setting is the probability for `within`."""
    return Rules(_rule(shop, "decision rule critical"), _rule(shop, "decision rule normal"))


def _rule(shop: ShopState, name: str) -> DecisionRule:
    held = shop.shop_settings.get(name)
    if held is None:
        return DecisionRule()
    within = float(held.body.value)
    return DecisionRule(within, 1.0 - within)
