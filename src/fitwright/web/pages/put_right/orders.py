"""Rework orders as a list: what is to be done to which part, and what still wants looking at."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.results import ReworkStanding, Standing
from fitwright.web.addresses import order_address
from fitwright.web.view import View


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One order; `standing` counts what it feeds that nobody has looked at since."""

    code: str
    title: str
    words: str
    standing: str
    closed: bool
    address: str


def order_lines(view: View, standing: Standing) -> tuple[OrderLine, ...]:
    """All orders, those that are open first."""
    every = sorted(standing.reworks, key=lambda each: (each.closed, each.ordered.seq))
    return tuple(_line(view, each) for each in every)


def _line(view: View, each: ReworkStanding) -> OrderLine:
    return OrderLine(
        code=each.code,
        title=f"{each.part_title}: {each.change}",
        words=each.order_words,
        standing=each.words,
        closed=each.closed,
        address=order_address(view.code, each.code, view.family),
    )
