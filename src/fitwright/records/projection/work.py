"""The work recorded on a build: tightenings, steps, permissions, signatures."""

from __future__ import annotations

from functools import singledispatchmethod

from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body
from fitwright.records.projection.ledger import Recorded

Tightened = kinds.Tightening | kinds.TighteningCheck | kinds.Loosening


class Work:
    """What was done on a build, as far as it is effective, each in order.

    `tightened` holds what happened to the fasteners of each group; `orders` where each of all these
    entries counts from (for a correction: where stood what it corrects).
    """

    def __init__(self) -> None:
        self.tightened: dict[str, list[Recorded[Tightened]]] = {}
        self.heat_cycles: list[Recorded[kinds.HeatCycle]] = []
        self.consumables_used: dict[str, list[Recorded[kinds.ConsumableUsed]]] = {}
        self.steps_done: dict[str, list[Recorded[kinds.StepDone]]] = {}
        self.steps_released: dict[str, list[Recorded[kinds.StepReleased]]] = {}
        self.witnesses: dict[str, list[Recorded[kinds.WitnessInvited]]] = {}
        self.concessions: dict[str, Recorded[kinds.Concession]] = {}
        self.deviation_permits: dict[str, Recorded[kinds.DeviationPermit]] = {}
        self.rework_orders: dict[str, Recorded[kinds.ReworkOrder]] = {}
        self.rework_checks: dict[str, list[Recorded[kinds.ReworkChecked]]] = {}
        self.signatures: list[Recorded[kinds.Signature]] = []
        self.dossiers: list[Recorded[kinds.DossierWritten]] = []
        self.orders: dict[str, int] = {}

    def take(self, order: int, entry: Entry, body: Body) -> None:
        """Take the next effective entry in order."""
        self.orders[entry.id] = order
        self._take(body, entry)

    @singledispatchmethod
    def _take(self, body: Body, entry: Entry) -> None:
        """What is no work is passed over."""

    @_take.register(kinds.Tightening)
    @_take.register(kinds.TighteningCheck)
    @_take.register(kinds.Loosening)
    def _(self, body: Tightened, entry: Entry) -> None:
        self.tightened.setdefault(body.group, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.HeatCycle, entry: Entry) -> None:
        self.heat_cycles.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.ConsumableUsed, entry: Entry) -> None:
        self.consumables_used.setdefault(body.consumable, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.StepDone, entry: Entry) -> None:
        self.steps_done.setdefault(body.step, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.StepReleased, entry: Entry) -> None:
        self.steps_released.setdefault(body.step, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.WitnessInvited, entry: Entry) -> None:
        self.witnesses.setdefault(body.step, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Concession, entry: Entry) -> None:
        self.concessions[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.DeviationPermit, entry: Entry) -> None:
        self.deviation_permits[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.ReworkOrder, entry: Entry) -> None:
        self.rework_orders[body.code] = Recorded(entry, body)

    @_take.register
    def _(self, body: kinds.ReworkChecked, entry: Entry) -> None:
        self.rework_checks.setdefault(body.order, []).append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.Signature, entry: Entry) -> None:
        self.signatures.append(Recorded(entry, body))

    @_take.register
    def _(self, body: kinds.DossierWritten, entry: Entry) -> None:
        self.dossiers.append(Recorded(entry, body))
