"""The small engine with fasteners that are positions: the main caps' bolts and the flywheel's."""

from __future__ import annotations

from typing import Final

POSITIONS: Final = """
[parts."{c1,c2,c3,c4}"]
title = "Cap bolt {}"
material = "steel"
[parts."flywheel.{f1,f2}"]
title = "Flywheel bolt {}"
material = "steel"
one_time_use = true
[dimensions.bolt_seat]
title = "Cap height over bolt c1"
through = ["block", "c1"]
sense = "linear"
nominal = "20.00 mm"
instrument = "outside micrometer"
limits = [{ source = "manual", lower = "19.950 mm", upper = "20.050 mm", governs = true }]
"""
