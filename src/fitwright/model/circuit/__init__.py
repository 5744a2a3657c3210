"""The oil circuit of an engine type: what pumps, what relieves, and every way that oil takes.

`sizes` says how a size is given: an amount, or the fit or dimension that is measured for it; `pumps`
the stages of the pump with their rotors, `relief` the relief valves, `elements` what lies in a path,
`paths` the paths with the nodes between which they run, `crank_train` what loads bearings over the
cycle, `circuit` the whole with its gauge, speeds, temperatures and the pressures at which one stops.

Conventions: nodes are implied by the paths; the node `sump` is at no pressure (gauge). Everything
named `..._clearance` says in its metadata how it is stated (`sizes.size_rules`): a running clearance
is diametral, as fits are; where a referenced fit is stated otherwise, `sizes.factor_between` says what
its value is multiplied by.
"""

from __future__ import annotations

from fitwright.model.circuit.circuit import Circuit, OperatingPoint, Stop, StopAction
from fitwright.model.circuit.crank_train import CrankTrain, GasPressure
from fitwright.model.circuit.elements import (
    AnnularLeak,
    Bearing,
    BearingFeed,
    BigEndFeed,
    Cooler,
    Element,
    Filter,
    Intersection,
    Jet,
    Passage,
    Restrictor,
    Slot,
    Strainer,
    Tensioner,
    TurbochargerFeed,
)
from fitwright.model.circuit.paths import ELEMENTS, USUAL_GROUPS, USUAL_SPEED_RATIOS, OilPath, PathKind
from fitwright.model.circuit.pumps import (
    ROTORS,
    Crescent,
    InternalRotor,
    PumpKind,
    PumpStage,
    Rotors,
    Spur,
    StagePurpose,
    StatedDisplacement,
)
from fitwright.model.circuit.relief import Relief, ReliefPorts
from fitwright.model.circuit.sizes import Reference, Size, SizeRule, factor_between, given_sizes, size_rules

SUMP = "sump"
"""The node at no pressure: the sump, or the tank of a dry sump."""

__all__ = [
    "ELEMENTS",
    "ROTORS",
    "SUMP",
    "USUAL_GROUPS",
    "USUAL_SPEED_RATIOS",
    "AnnularLeak",
    "Bearing",
    "BearingFeed",
    "BigEndFeed",
    "Circuit",
    "Cooler",
    "CrankTrain",
    "Crescent",
    "Element",
    "Filter",
    "GasPressure",
    "InternalRotor",
    "Intersection",
    "Jet",
    "OilPath",
    "OperatingPoint",
    "Passage",
    "PathKind",
    "PumpKind",
    "PumpStage",
    "Reference",
    "Relief",
    "ReliefPorts",
    "Restrictor",
    "Rotors",
    "Size",
    "SizeRule",
    "Slot",
    "Spur",
    "StagePurpose",
    "StatedDisplacement",
    "Stop",
    "StopAction",
    "Strainer",
    "Tensioner",
    "TurbochargerFeed",
    "factor_between",
    "given_sizes",
    "size_rules",
]
