from __future__ import annotations

from fitwright.model.amount import Written
from fitwright.model.governing import Adopted, RuledLimit, rule_limits
from fitwright.model.limit import AppliesTo, Limit, LimitClass, Source, SourceKind

SOURCES = {
    "manual": Source("manual", "Manual", SourceKind.ENGINE_MAKER),
    "leaflet": Source("leaflet", "Leaflet", SourceKind.PARTS_MAKER),
    "thumb": Source("thumb", "Rules of thumb", SourceKind.RULE_OF_THUMB),
}
NORMAL, CRITICAL = LimitClass.NORMAL, LimitClass.CRITICAL


def amount(millimetres: float) -> Written:
    return Written(f"{millimetres} mm", millimetres / 1000, "mm", 3)


def limit(
    source: str,
    lower: float | None = None,
    upper: float | None = None,
    *,
    governs: bool = False,
    used: bool = False,
    case: str | None = None,
) -> Limit:
    return Limit(
        None if lower is None else amount(lower),
        None if upper is None else amount(upper),
        source,
        governs=governs,
        applies_to=AppliesTo.USED if used else AppliesTo.NEW,
        temperature_case=case,
    )


def governing(ruled: tuple[RuledLimit, ...], case: str | None = None) -> tuple[float | None, float | None]:
    """The bounds in force [mm], and a check that no side is in force twice."""
    found: dict[str, float] = {}
    for each in ruled:
        if not each.governs or each.limit.temperature_case != case:
            continue
        for side in ("lower", "upper"):
            bound = getattr(each.limit, side)
            if bound is not None:
                assert side not in found
                found[side] = round(bound.si * 1000, 6)
    return found.get("lower"), found.get("upper")


def test_a_flagged_limit_governs_and_the_others_are_shown() -> None:
    limits = [limit("leaflet", 0.03, 0.07), limit("manual", 0.045, 0.065, governs=True), limit("thumb", 0.05)]
    ruled = rule_limits(limits, CRITICAL, SOURCES)
    assert governing(ruled) == (0.045, 0.065)
    assert [each.limit for each in ruled] == limits


def test_a_limit_that_stands_alone_beside_rules_of_thumb_governs_unflagged() -> None:
    limits = [limit("thumb", 0.05, 0.08), limit("manual", 0.045, 0.065)]
    assert governing(rule_limits(limits, CRITICAL, SOURCES)) == (0.045, 0.065)
    assert governing(rule_limits(limits, NORMAL, SOURCES)) == (0.045, 0.065)


def test_two_unflagged_limits_leave_it_open() -> None:
    limits = [limit("leaflet", 0.03, 0.07), limit("manual", 0.045, 0.065)]
    assert governing(rule_limits(limits, NORMAL, SOURCES)) == (None, None)


def test_a_rule_of_thumb_governs_only_where_it_is_normal_and_alone() -> None:
    thumb = limit("thumb", 0.05, 0.08)
    assert governing(rule_limits([thumb], NORMAL, SOURCES)) == (0.05, 0.08)
    assert governing(rule_limits([thumb], CRITICAL, SOURCES)) == (None, None)
    beside = [thumb, limit("manual", upper=0.1)]
    assert governing(rule_limits(beside, NORMAL, SOURCES)) == (None, 0.1)


def test_a_wear_limit_goes_over_the_bounds_that_it_gives_for_used_parts_only() -> None:
    limits = [limit("manual", 0.045, 0.065, governs=True), limit("manual", upper=0.09, used=True)]
    assert governing(rule_limits(limits, CRITICAL, SOURCES)) == (0.045, 0.065)
    ruled = rule_limits(limits, CRITICAL, SOURCES, used=True)
    assert governing(ruled) == (0.045, 0.09)
    shown = [(each.limit.upper, each.governs) for each in ruled]
    assert (amount(0.065), False) in shown


def test_an_adopted_rule_of_thumb_governs_a_critical_fit_with_its_kind_unchanged() -> None:
    limits = [limit("thumb", 0.05, 0.08)]
    taken = Adopted("thumb", "builder", upper=amount(0.07))
    ruled = rule_limits(limits, CRITICAL, SOURCES, adopted=taken)
    assert governing(ruled) == (0.05, 0.07)
    adopted = next(each for each in ruled if each.governs)
    assert (adopted.limit.source, adopted.adopted_by) == ("thumb", "builder")
    assert RuledLimit(limits[0], governs=False) in ruled


def test_an_adopted_limit_goes_over_the_makers_and_over_the_wear_limit() -> None:
    limits = [limit("manual", 0.045, 0.065, governs=True), limit("manual", upper=0.09, used=True)]
    taken = Adopted("shop", "builder", upper=amount(0.075))
    assert governing(rule_limits(limits, CRITICAL, SOURCES, used=True, adopted=taken)) == (0.045, 0.075)


def test_limits_for_a_hot_state_are_ruled_by_themselves() -> None:
    limits = [limit("manual", 0.175, 0.225, governs=True), limit("leaflet", 0.1, 0.3, case="hot")]
    ruled = rule_limits(limits, NORMAL, SOURCES, adopted=Adopted("manual", "builder", lower=amount(0.18)))
    assert governing(ruled) == (0.18, 0.225)
    assert governing(ruled, "hot") == (0.1, 0.3)


def test_no_limit_no_ruling() -> None:
    assert rule_limits([], CRITICAL, SOURCES) == ()
