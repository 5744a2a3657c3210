"""The order of work as a graph: which steps come before a step, near and far."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.model.step import Step


class StepsBefore:
    """For each step all those before it; a ring of steps ends where it began."""

    def __init__(self, steps: Mapping[str, Step]) -> None:
        self._steps = steps
        self._found: dict[str, frozenset[str]] = {}

    def of(self, step: Step) -> frozenset[str]:
        """The ids of all steps before a step."""
        if step.id not in self._found:
            seen: set[str] = set()
            ahead = list(step.after)
            while ahead:
                name = ahead.pop()
                if name not in seen:
                    seen.add(name)
                    other = self._steps.get(name)
                    ahead.extend(other.after if other is not None else ())
            self._found[step.id] = frozenset(seen - {step.id})
        return self._found[step.id]
