"""An assessment as plain data for another program: SI numbers, null where a figure does not exist."""

from __future__ import annotations

from collections.abc import Callable
from math import isinf
from typing import Any

from fitwright.assess.results import Assessment, BoundVerdict, FitVerdict, HotState
from fitwright.assess.settling import Settling

FORMAT = 1


def as_json(
    found: Assessment, settle: Callable[[str], Settling | None], oil: dict[str, Any] | None = None
) -> dict[str, Any]:
    """The whole assessment; `settle` says for one subject what would settle it.

    `oil` is the prediction of the oil system (`oil_prediction`): null where nobody asks for it, or where the
    sheet has no oil circuit.
    """
    return {
        "format": FORMAT,
        "build": found.build,
        "state": found.state.value,
        "sheet": found.sheet,
        "fits": [fit_as_json(each, settle(each.id)) for each in found.verdicts.values()],
        "without_limits": [fit_as_json(each, None) for each in found.unlimited.values()],
        "not_recorded": [
            {"id": each.id, "name": each.title, "station": each.station, "because": each.because}
            for each in found.not_recorded
        ],
        "not_on_sheet": [
            {"entry": each.entry, "dimension": each.dimension, "place": each.place, "why": each.why}
            for each in found.not_on_sheet
        ],
        "not_in_this_job": dict(found.not_in_this_job),
        "oil": oil,
    }


def fit_as_json(found: FitVerdict, settling: Settling | None) -> dict[str, Any]:
    """One limited fit or dimension."""
    low, high = found.interval
    return {
        "id": found.id,
        "kind": found.kind,
        "name": found.name,
        "fit_kind": found.fit_kind,
        "sense": found.sense,
        "class": found.limit_class,
        "station": found.station,
        "verdict": found.verdict.value,
        "reason": found.reason.value if found.reason else None,
        "words": found.words,
        "value": found.value,
        "standard_uncertainty": found.standard_uncertainty,
        "degrees_of_freedom": _finite(found.degrees_of_freedom),
        "interval": [low, high],
        "unit": found.unit,
        "in_hand": found.in_hand,
        "bounds": [_bound(each) for each in found.bounds],
        "readings": list(found.readings),
        "unused": [
            {"entry": each.entry, "dimension": each.dimension, "place": each.place, "why": each.why}
            for each in found.unused
        ],
        "missing": list(found.missing),
        "cautions": list(found.cautions),
        "rests_on_stated": list(found.rests_on_stated),
        "hot": [_hot(each) for each in found.hot],
        "settle": settling.as_data() if settling is not None else None,
    }


def _bound(found: BoundVerdict) -> dict[str, Any]:
    return {
        "side": found.side,
        "limit": found.limit,
        "written": found.written,
        "governs": found.governs,
        "source": found.source,
        "source_kind": found.source_kind,
        "place_in_source": found.place_in_source,
        "applies_to": found.applies_to,
        "temperature_case": found.temperature_case,
        "adopted_by": found.adopted_by,
        "probability": found.probability,
        "verdict": found.verdict.value,
        "reason": found.reason.value if found.reason else None,
        "acceptance_limit": found.acceptance_limit,
    }


def _hot(found: HotState) -> dict[str, Any]:
    low, high = found.interval
    return {
        "case": found.case,
        "value": found.value,
        "standard_uncertainty": found.standard_uncertainty,
        "interval": [low, high],
        "judged": found.judged,
    }


def _finite(value: float | None) -> float | None:
    return None if value is None or isinf(value) else value
