"""Kinds of element in the oil circuit, one module each; each says its law and its sizes."""

from fitwright.physics.network.elements.bearing import Bearing
from fitwright.physics.network.elements.cooler import Cooler
from fitwright.physics.network.elements.crank_drilling import CrankDrilling
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.filter import Filter
from fitwright.physics.network.elements.intersection import DrilledIntersection
from fitwright.physics.network.elements.jet import Jet
from fitwright.physics.network.elements.leak import AnnularLeak, SlotLeak
from fitwright.physics.network.elements.orifice import Orifice, Restrictor
from fitwright.physics.network.elements.pipe import Pipe
from fitwright.physics.network.elements.pump import Pump, PumpLeak
from fitwright.physics.network.elements.relief import Relief
from fitwright.physics.network.elements.resistance import LaminarResistance
from fitwright.physics.network.elements.series import Series
from fitwright.physics.network.elements.tensioner import ChainTensioner
from fitwright.physics.network.elements.turbocharger import TurbochargerFeed

__all__ = [
    "AnnularLeak",
    "Bearing",
    "ChainTensioner",
    "Cooler",
    "CrankDrilling",
    "DrilledIntersection",
    "Element",
    "Filter",
    "Jet",
    "LaminarResistance",
    "Orifice",
    "Pipe",
    "Pump",
    "PumpLeak",
    "Relief",
    "Restrictor",
    "Series",
    "SlotLeak",
    "TurbochargerFeed",
]
