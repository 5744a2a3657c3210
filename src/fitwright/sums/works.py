"""The works that sums cite, as a person reads them; a test holds them to docs/sources.toml."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

WORKS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "aiag_msa_2010": "Measurement Systems Analysis, 4th edition (2010)",
        "alexander1977": "Analysis and design of threaded assemblies (1977)",
        "asme_b1_1_2003": "ASME B1.1-2003, unified inch screw threads",
        "astm_d1250_1980": "ASTM D1250 (1980), petroleum measurement tables",
        "astm_d341_2020": "ASTM D341 (2020), viscosity-temperature equations",
        "bickford1995": "An Introduction to the Design and Behavior of Bolted Joints, 3rd edition (1995)",
        "bs84_2007": "BS 84:2007, parallel screw threads of Whitworth form",
        "callister2007": "Fundamentals of Materials Science and Engineering, 3rd edition (2007)",
        "crane2009": "Flow of Fluids Through Valves, Fittings, and Pipe, Technical Paper 410 (2009)",
        "din7190_1_2017": "DIN 7190-1:2017, interference fits",
        "hamrock2004": "Fundamentals of Fluid Film Lubrication, 2nd edition (2004)",
        "harris1930": "Elimination of Hydraulic Eddy Current Loss at Intake (1930)",
        "idelchik1966": "Handbook of Hydraulic Resistance (1966)",
        "iso1_2022": "ISO 1:2022, standard reference temperature",
        "iso21771_2007": "ISO 21771:2007, cylindrical involute gears",
        "iso273_1979": "ISO 273:1979, clearance holes for bolts and screws",
        "iso3506_1_2020": "ISO 3506-1:2020, stainless steel fasteners",
        "iso4014_2011": "ISO 4014:2011, hexagon head bolts",
        "iso898_1_2013": "ISO 898-1:2013, mechanical properties of fasteners",
        "ivantysyn2001": "Hydrostatic Pumps and Motors (2001)",
        "jcgm100_2008": "JCGM 100:2008, expression of uncertainty in measurement",
        "jcgm101_2008": "JCGM 101:2008, propagation of distributions",
        "jcgm102_2011": "JCGM 102:2011, any number of output quantities",
        "jcgm106_2012": "JCGM 106:2012, conformity assessment",
        "jcgm200_2012": "JCGM 200:2012, vocabulary of metrology",
        "manring2003": "The theoretical flow ripple of an external gear pump (2003)",
        "merritt1967": "Hydraulic Control Systems (1967)",
        "miller1990": "Internal Flow Systems, 2nd edition (1990)",
        "muralikrishnan2009": "Computational Surface and Roundness Metrology (2009)",
        "neale1995": "The Tribology Handbook, 2nd edition (1995)",
        "raimondi1958": (
            "A solution for the finite journal bearing and its application to analysis and design (1958)"
        ),
        "rennels2012": "Pipe Flow: A Practical and Comprehensive Guide (2012)",
        "sae_j429_2014": "SAE J429 (2014), externally threaded fasteners",
        "swamee2008": "Design of Water Supply Pipe Networks (2008)",
        "timoshenko1956": "Strength of Materials, Part II (1956)",
        "vdi2230_1_2015": "VDI 2230-1:2015-11, highly stressed bolted joints",
        "white2011": "Fluid Mechanics, 7th edition (2011)",
    }
)
_CITED: Final = re.compile(r"\[([a-z][a-z0-9_]*\d{4})\]")


def work(source: str) -> str:
    """A source as one reads it; what is no key says what it is itself.

    >>> work("jcgm106_2012")
    'JCGM 106:2012, conformity assessment'
    """
    return WORKS.get(source, source)


def with_works(text: str) -> str:
    """A text with the keys that it cites replaced by their works.

    >>> with_works("usual value [timoshenko1956]")
    'usual value (Strength of Materials, Part II (1956))'
    """
    return _CITED.sub(lambda found: f"({work(found[1])})", text)
