"""What stands at the stations, and where each touch mark ended up: the data around the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.results import Verdict
from fitwright.drawing.writing import TextBox


@dataclass(frozen=True, slots=True)
class StationState:
    """How many fits of a station are within, outside, unproven and not measured.

    Those judged by a rule of thumb are counted apart, as everywhere; `accepted` is how many of those
    outside stand under a concession or permit, and stay outside. `words` replaces the words made
    from the counts; `href` is where touching the mark leads, without it the mark is a mark only.
    """

    id: str
    title: str
    within: int = 0
    unproven: int = 0
    outside: int = 0
    not_measured: int = 0
    within_rule_of_thumb: int = 0
    outside_rule_of_thumb: int = 0
    accepted: int = 0
    words: str = ""
    href: str | None = None

    @property
    def verdict(self) -> Verdict | None:
        """The worst of the verdicts; None where nothing is judged here."""
        return next((verdict for verdict, _, count in self._counts() if count), None)

    def _counts(self) -> tuple[tuple[Verdict, str, int], ...]:
        """Verdicts with their words and counts, the worst first."""
        return (
            (Verdict.OUTSIDE, "outside", self.outside),
            (Verdict.OUTSIDE, "outside a rule of thumb", self.outside_rule_of_thumb),
            (Verdict.UNPROVEN, "unproven", self.unproven),
            (Verdict.NOT_MEASURED, "not measured", self.not_measured),
            (Verdict.WITHIN, "within", self.within),
            (Verdict.WITHIN, "within a rule of thumb", self.within_rule_of_thumb),
        )

    def said(self) -> str:
        """The state in words: what is open, else how many are within.

        >>> StationState("mains", "Mains", within=9, outside=1, not_measured=2).said()
        '1 outside, 2 not measured'
        >>> StationState("mains", "Mains", within=9).said()
        '9 within'
        >>> StationState("mains", "Mains", outside=2, accepted=1).said()
        '2 outside, 1 of them accepted'
        """
        if self.words:
            return self.words
        said = [(verdict, f"{count} {words}") for verdict, words, count in self._counts() if count]
        if self.accepted:
            last = max(index for index, (verdict, _) in enumerate(said) if verdict is Verdict.OUTSIDE)
            said.insert(last + 1, (Verdict.OUTSIDE, f"{self.accepted} of them accepted"))
        is_open = any(verdict is not Verdict.WITHIN for verdict, _ in said)
        found = [words for verdict, words in said if not (is_open and verdict is Verdict.WITHIN)]
        return ", ".join(found) or "nothing judged here"

    def name(self) -> str:
        """What a reader of the screen is told."""
        return f"{self.title}: {self.said()}"


@dataclass(frozen=True, slots=True)
class TouchMark:
    """Where the mark of a station stands on the page, and to which points of the engine it leads."""

    station: str
    title: str
    x: float
    y: float
    width: float
    height: float
    place: str | None = None
    point: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Section:
    """A finished drawing: its SVG, its size, what is touchable, what is written, and its notes."""

    svg: str
    width: float
    height: float
    scale: float
    label: str
    marks: tuple[TouchMark, ...]
    texts: tuple[TextBox, ...]
    notes: tuple[str, ...]
