"""Quick sums: one computation on its own, without a build.

A sum has named inputs with units, one call into physics and a result with its working. Each is one
module of `each`, found by the registry that the command line and the pages read, so that a new sum
is a new file and nothing else.

declaration   what a sum declares and answers
forms         how inputs are read and described
raw           what was given, before it is read
crossed       a gauge study as a table
typed         what was typed into a page, where a number may stand without its unit
works         the works that sums cite
registry      all sums by name
running       inputs -> physics -> figures with units
exchange      results and declarations as JSON
shown         figures as text for people
"""

from __future__ import annotations

from fitwright.sums.declaration import Figure, PutIn, Step, Sum, SumResult
from fitwright.sums.errors import SumError
from fitwright.sums.registry import SUMS, sum_named
from fitwright.sums.running import run

__all__ = ["SUMS", "Figure", "PutIn", "Step", "Sum", "SumError", "SumResult", "run", "sum_named"]
