"""Films over the cycle, worked out beside the pages: the first time on a machine takes a while."""

from __future__ import annotations

import threading
from collections import OrderedDict
from concurrent.futures import Future
from typing import Final

from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import CycleFilms
from fitwright.assess.oil.what_if import WhatIf

MOST: Final = 32
"""So many answers are kept, those asked for last."""


class CycleWork:
    """The answers that are there, and the threads that work on others."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._kept: OrderedDict[tuple[int, str], tuple[OilDesk, Future[CycleFilms]]] = OrderedDict()

    def answer(self, desk: OilDesk, point: OilPoint, what_if: WhatIf, *, wait: float) -> CycleFilms | None:
        """Films at a point, if they are there within some seconds; else they are worked on, and None."""
        future = self._future(desk, point, what_if)
        try:
            return future.result(wait)
        except TimeoutError:
            return None

    def _future(self, desk: OilDesk, point: OilPoint, what_if: WhatIf) -> Future[CycleFilms]:
        key = (id(desk), repr((point, what_if)))
        with self._lock:
            held = self._kept.get(key)
            if held is not None and held[0] is desk and not _came_to_nothing(held[1]):
                self._kept.move_to_end(key)
                return held[1]
            future: Future[CycleFilms] = Future()
            self._kept[key] = desk, future
            while len(self._kept) > MOST:
                self._kept.popitem(last=False)
        threading.Thread(target=_work, args=(future, desk, point, what_if), daemon=True).start()
        return future


def _came_to_nothing(future: Future[CycleFilms]) -> bool:
    return future.done() and future.exception() is not None


def _work(future: Future[CycleFilms], desk: OilDesk, point: OilPoint, what_if: WhatIf) -> None:
    try:
        future.set_result(desk.films_over_cycle(point, what_if))
    except BaseException as error:  # noqa: BLE001 - whoever asks is told
        future.set_exception(error)
