"""Entries counted, in words: what was written since somebody looked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.records import kinds

NOUNS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        kinds.Reading.kind: ("reading", "readings"),
        "rework": ("rework", "reworks"),
        "repair": ("repair", "repairs"),
        "replacement": ("replacement", "replacements"),
        kinds.RevisionTakenOver.kind: ("revision taken over", "revisions taken over"),
        kinds.Fitting.kind: ("part put in", "parts put in"),
        kinds.TakingOut.kind: ("part taken out", "parts taken out"),
        kinds.Part.kind: ("part", "parts"),
        kinds.LimitAdopted.kind: ("limit adopted", "limits adopted"),
        kinds.Withdrawal.kind: ("withdrawal", "withdrawals"),
        kinds.ReadingsMoved.kind: ("move of readings", "moves of readings"),
        kinds.Choice.kind: ("choice between readings", "choices between readings"),
        kinds.Concession.kind: ("concession", "concessions"),
        kinds.DeviationPermit.kind: ("deviation permit", "deviation permits"),
        kinds.StepReleased.kind: ("step released", "steps released"),
        kinds.Signature.kind: ("signature", "signatures"),
        kinds.Loosening.kind: ("loosening", "loosenings"),
        kinds.StepDone.kind: ("step done", "steps done"),
        kinds.Tightening.kind: ("tightening", "tightenings"),
        kinds.ReworkOrder.kind: ("rework order", "rework orders"),
        kinds.ReworkChecked.kind: ("look after rework", "looks after rework"),
        kinds.TighteningCheck.kind: ("look at fasteners", "looks at fasteners"),
        kinds.HeatCycle.kind: ("heat cycle", "heat cycles"),
        kinds.ConsumableUsed.kind: ("consumable used", "consumables used"),
        kinds.WitnessInvited.kind: ("witness invited", "witnesses invited"),
        kinds.DossierWritten.kind: ("dossier written", "dossiers written"),
        kinds.StatedSize.kind: ("stated size", "stated sizes"),
        kinds.EyeCheck.kind: ("eye check", "eye checks"),
        kinds.PressureReading.kind: ("pressure reading", "pressure readings"),
        kinds.OilChosen.kind: ("choice of oil", "choices of oil"),
        kinds.Setting.kind: ("setting", "settings"),
        kinds.CheckBack.kind: ("check-back", "check-backs"),
        kinds.Sitting.kind: ("sitting", "sittings"),
        kinds.Note.kind: ("note", "notes"),
        kinds.Photo.kind: ("photo", "photos"),
    }
)
"""What entries are called when they are counted, the weightiest first; a state is called by its change."""

MOST_NAMED: Final = 4


def counted(counts: Mapping[str, int]) -> str:
    """How many entries of which kinds, in words; nothing where there are none.

    Examples
    --------
    >>> counted({"reading": 14, "rework": 1, "question answered": 2})
    '14 readings, 1 rework, 2 other entries'
    """
    named = [kind for kind in NOUNS if counts.get(kind)][:MOST_NAMED]
    others = sum(number for kind, number in counts.items() if kind not in named)
    return ", ".join(_parts(counts, named, others))


def _parts(counts: Mapping[str, int], named: list[str], others: int) -> Iterator[str]:
    for kind in named:
        yield f"{counts[kind]} {NOUNS[kind][counts[kind] != 1]}"
    if others:
        word = "entry" if others == 1 else "entries"
        yield f"{others} {'other ' if named else ''}{word}"
