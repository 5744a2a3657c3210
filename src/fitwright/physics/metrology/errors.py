"""Errors of the metrology package."""

from __future__ import annotations

from fitwright.physics.numerics.errors import PhysicsError


class MetrologyError(PhysicsError):
    """Base of the errors that metrology raises."""


class InconsistentUnknownError(MetrologyError):
    """One key stands for two different unknowns."""

    def __init__(self, key: str) -> None:
        self.key = key
        super().__init__(
            f"the unknown {key!r} is given with two different values, uncertainties or degrees of freedom;"
            " give each unknown a key of its own"
        )


class DuplicateReadingError(MetrologyError):
    """One reading was handed in twice, which would count it as two."""

    def __init__(self, key: str) -> None:
        self.key = key
        super().__init__(f"the reading {key!r} is handed in twice; hand in each reading once")


class UnknownPlaceError(MetrologyError):
    """A place is named at which nothing was estimated."""

    def __init__(self, place: str) -> None:
        self.place = place
        super().__init__(f"no reading was taken at the place {place!r}")


class DependentReadingsError(MetrologyError):
    """Readings whose errors are the same, so that their disagreement has no explanation."""

    def __init__(self, places: tuple[str, ...]) -> None:
        self.places = places
        super().__init__(
            f"the readings at {', '.join(places)} share every source of error and yet are several;"
            " give each reading its own repeatability"
        )


class MismatchedPairError(MetrologyError):
    """A combination of places that does not name one place for each term."""

    def __init__(self, pair: tuple[str, ...], terms: int) -> None:
        self.pair = pair
        self.terms = terms
        super().__init__(
            f"the combination {pair} must name one place of each of the {terms} terms, in their order"
        )
