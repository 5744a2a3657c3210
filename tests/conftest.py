"""What every test shares: how hard hypothesis tries."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

# Shared machines stall, so no example has a deadline; the suite's own time is watched instead.
settings.register_profile(
    "quick", max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("thorough", max_examples=1000, deadline=None)
settings.load_profile(os.environ.get("FITWRIGHT_HYPOTHESIS", "quick"))
