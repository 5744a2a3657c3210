"""The works that sums cite, as a person reads them; a test holds them to docs/sources.toml."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

WORKS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "aiag_msa_2010": "Measurement Systems Analysis, 4th edition (2010)",
        "callister2007": "Fundamentals of Materials Science and Engineering, 3rd edition (2007)",
        "din7190_1_2017": "DIN 7190-1:2017, interference fits",
        "iso1_2022": "ISO 1:2022, standard reference temperature",
        "jcgm100_2008": "JCGM 100:2008, expression of uncertainty in measurement",
        "jcgm101_2008": "JCGM 101:2008, propagation of distributions",
        "jcgm102_2011": "JCGM 102:2011, any number of output quantities",
        "jcgm106_2012": "JCGM 106:2012, conformity assessment",
        "jcgm200_2012": "JCGM 200:2012, vocabulary of metrology",
        "muralikrishnan2009": "Computational Surface and Roundness Metrology (2009)",
        "timoshenko1956": "Strength of Materials, Part II (1956)",
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
