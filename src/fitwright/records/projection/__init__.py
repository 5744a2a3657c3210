"""Entries replayed into the state of a shop and of a build.

`ledger` which entries count (withdrawals, corrections); `shop` people, gauges, blades, settings;
`build` one build; `readings` observations and stated sizes by feature; `arrangement` which part
sits where; `changes` what was reworked; `work` tightenings, steps,
permissions and signatures. Everything here can be dropped and rebuilt from the
entries: `apply` entry by entry and `replay` of all give the same state.

Conventions: *effective* entries are neither withdrawn nor superseded. A correction stands in the
order where the entry stood that it corrects: that is its `order`, a `seq`.
"""

from fitwright.records.projection.arrangement import ArrangementEvent
from fitwright.records.projection.build import BuildState
from fitwright.records.projection.changes import StateChange
from fitwright.records.projection.ledger import Recorded
from fitwright.records.projection.readings import ReadingRecord, StatedSizeRecord
from fitwright.records.projection.shop import ShopState
from fitwright.records.projection.work import Tightened, Work

__all__ = [
    "ArrangementEvent",
    "BuildState",
    "ReadingRecord",
    "Recorded",
    "ShopState",
    "StateChange",
    "StatedSizeRecord",
    "Tightened",
    "Work",
]
