"""The body of every kind of entry.

A body is immutable and strict: unknown fields are refused. Everything that is referred to has a
short `code` of its own (`M3`, `S-014`, `shell-17`); a later entry of the same kind and code is the
newer state of that thing. A correction names the entry that it supersedes, with a reason.
Lengths and other amounts are SI; what was typed stands beside them (`Typed`).
"""

from fitwright.records.kinds.body import Body, Typed
from fitwright.records.kinds.builds import (
    BuildStarted,
    LimitAdopted,
    Note,
    NotInThisJob,
    Photo,
    QuestionAnswered,
    RevisionTakenOver,
    Withdrawal,
)
from fitwright.records.kinds.gauges import (
    BladeOnShelf,
    BladeSet,
    Calibration,
    CheckBack,
    GaugeStudy,
    Instrument,
    Setting,
    StudyReading,
)
from fitwright.records.kinds.oil import OilChosen, OilDataSheet, PressureReading
from fitwright.records.kinds.order_of_work import StepDone, StepReleased, WitnessInvited
from fitwright.records.kinds.parts import Fitting, Part, State, TakingOut
from fitwright.records.kinds.permissions import Concession, DeviationPermit, ReworkChecked, ReworkOrder
from fitwright.records.kinds.readings import (
    BladeObservation,
    Choice,
    EyeCheck,
    Moved,
    NotMeasured,
    Observation,
    Origin,
    Reading,
    ReadingsMoved,
    Sitting,
    StatedSize,
    ValueObservation,
)
from fitwright.records.kinds.shop import Person, ShopSetting
from fitwright.records.kinds.signing import DossierWritten, PinSet, Signature
from fitwright.records.kinds.tightening import (
    ConsumableUsed,
    HeatCycle,
    Loosening,
    Tightening,
    TighteningCheck,
)

__all__ = [
    "BladeObservation",
    "BladeOnShelf",
    "BladeSet",
    "Body",
    "BuildStarted",
    "Calibration",
    "CheckBack",
    "Choice",
    "Concession",
    "ConsumableUsed",
    "DeviationPermit",
    "DossierWritten",
    "EyeCheck",
    "Fitting",
    "GaugeStudy",
    "HeatCycle",
    "Instrument",
    "LimitAdopted",
    "Loosening",
    "Moved",
    "NotInThisJob",
    "NotMeasured",
    "Note",
    "Observation",
    "OilChosen",
    "OilDataSheet",
    "Origin",
    "Part",
    "Person",
    "Photo",
    "PinSet",
    "PressureReading",
    "QuestionAnswered",
    "Reading",
    "ReadingsMoved",
    "RevisionTakenOver",
    "ReworkChecked",
    "ReworkOrder",
    "Setting",
    "ShopSetting",
    "Signature",
    "Sitting",
    "State",
    "StatedSize",
    "StepDone",
    "StepReleased",
    "StudyReading",
    "TakingOut",
    "Tightening",
    "TighteningCheck",
    "Typed",
    "ValueObservation",
    "Withdrawal",
    "WitnessInvited",
]
