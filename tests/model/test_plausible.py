from __future__ import annotations

import pytest

from fitwright.model.amount import Written
from fitwright.model.dimension import Dimension, Sense
from fitwright.model.fit import ChainTerm, Fit, FitKind, Route, RouteName
from fitwright.model.limit import AppliesTo, Limit
from fitwright.model.plausible import window_of
from tests.support.compare import verified


def amount(millimetres: float) -> Written:
    return Written(f"{millimetres} mm", millimetres / 1000, "mm", 3)


def dimension(**parts: object) -> Dimension:
    return Dimension(id="gap", title="Gap", sense=Sense.LINEAR, station=None, **parts)  # type: ignore[arg-type]


def fit(coefficient: float, *others: str, limits: tuple[Limit, ...]) -> Fit:
    chain = (ChainTerm(coefficient, "gap"), *(ChainTerm(1.0, other) for other in others))
    return Fit("f", "F", FitKind.GAP, Sense.LINEAR, None, (Route(RouteName.FITTED, chain),), limits=limits)


def window(subject: Dimension, *fits: Fit) -> tuple[float, float]:
    found = window_of(subject, fits)
    assert found is not None
    return found.low * 1000, found.high * 1000


NEW = Limit(amount(0.04), amount(0.08), "manual")
USED = Limit(None, amount(0.1), "manual", applies_to=AppliesTo.USED)
HOT = Limit(amount(0.001), amount(9.0), "manual", temperature_case="hot")


def test_a_given_window_comes_first() -> None:
    subject = dimension(plausible=(amount(1.0), amount(2.0)), limits=(NEW,), nominal=amount(1.5))
    verified(window(subject), [1.0, 2.0], by="the window written in the sheet", tolerance=1e-12)


def test_limits_of_all_cold_sources_open_the_window() -> None:
    found = window(dimension(limits=(NEW, USED, HOT)))
    verified(found, [0.02, 0.2], by="half the lower to twice the upper, by hand", tolerance=1e-12)


@pytest.mark.parametrize("coefficient, expected", [(1.0, (0.02, 0.16)), (2.0, (0.01, 0.08))])
def test_a_size_that_is_a_fit_by_itself_takes_its_limits(
    coefficient: float, expected: tuple[float, float]
) -> None:
    found = window(dimension(), fit(coefficient, limits=(NEW,)))
    verified(found, expected, by="limits over the factor, halved and doubled by hand", tolerance=1e-12)


def test_a_member_of_a_longer_chain_takes_its_nominal() -> None:
    subject = dimension(nominal=amount(56.0))
    found = window(subject, fit(1.0, "other", limits=(NEW,)))
    verified(found, [54.88, 57.12], by="nominal plus and minus 2 % by hand", tolerance=1e-12)


def test_where_the_sheet_says_nothing_there_is_no_window() -> None:
    assert window_of(dimension(), [fit(1.0, "other", limits=(NEW,)), fit(1.0, limits=())]) is None
