"""Predictions of the oil system, worked out beside the pages: nobody waits for a band or for a compiler."""

from __future__ import annotations

import threading
from collections import OrderedDict, deque
from collections.abc import Callable, Hashable, Sequence
from concurrent.futures import CancelledError, Future
from dataclasses import dataclass, field
from functools import partial
from typing import Any, Final, Protocol, TypeVar

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import Prediction
from fitwright.assess.oil.what_if import WhatIf

MOST: Final = 48
"""So many answers are kept, those asked for last."""

Drawn = TypeVar("Drawn")

MOST_WAITING: Final = 4
"""So many bands wait for their turn; of more, those that were asked for first are left."""


class Predicting(Protocol):
    """What a desk is asked here."""

    def best(self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction:
        """The best estimate."""
        ...

    def glance(
        self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = (), *, row: int = 0
    ) -> Prediction:
        """The same for one row of the points, without what each size costs."""
        ...

    def banded(self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction:
        """The best estimate with bands."""
        ...


@dataclass(frozen=True, slots=True)
class OilAsked:
    """What is asked of a desk: a best estimate, whole or a glance at one of the points, or one with bands."""

    what_if: WhatIf = field(default_factory=WhatIf)
    also: tuple[OilPoint, ...] = ()
    banded: bool = False
    glance_at: int | None = None


@dataclass(frozen=True, slots=True)
class _Kept:
    desk: Predicting
    answer: Future[Prediction]


class OilWork:
    """The answers that are there, and the threads that work on others."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._heavy = threading.Lock()
        self._kept: OrderedDict[tuple[int, str], _Kept] = OrderedDict()
        self._drawn: OrderedDict[Hashable, tuple[Prediction, Any]] = OrderedDict()
        self._waiting: deque[Future[Prediction]] = deque()

    def answer(self, desk: Predicting, asked: OilAsked, *, wait: float) -> Prediction | None:
        """The answer, if it is there within some seconds; else it is worked on, and None."""
        try:
            return self._future(desk, asked).result(wait)
        except (TimeoutError, CancelledError):
            return None

    def there(self, desk: Predicting, asked: OilAsked) -> Prediction | None:
        """The answer, if it is there already; nothing is begun."""
        with self._lock:
            held = self._kept.get((id(desk), repr(asked)))
        if held is None or held.desk is not desk or not held.answer.done() or _is_lost(held.answer):
            return None
        return held.answer.result()

    def drawn(self, prediction: Prediction, key: Hashable, draw: Callable[[], Drawn]) -> Drawn:
        """What was drawn of a prediction before, else drawn now: pages are looked at more than once."""
        at = (id(prediction), key)
        with self._lock:
            held = self._drawn.get(at)
            if held is not None and held[0] is prediction:
                self._drawn.move_to_end(at)
                return held[1]  # type: ignore[no-any-return]  # the key says what it is
        found = draw()
        with self._lock:
            self._drawn[at] = (prediction, found)
            while len(self._drawn) > MOST:
                self._drawn.popitem(last=False)
        return found

    def _future(self, desk: Predicting, asked: OilAsked) -> Future[Prediction]:
        key = (id(desk), repr(asked))
        with self._lock:
            held = self._kept.get(key)
            if held is not None and held.desk is desk and not _is_lost(held.answer):
                self._kept.move_to_end(key)
                return held.answer
            future: Future[Prediction] = Future()
            self._kept[key] = _Kept(desk, future)
            while len(self._kept) > MOST:
                self._kept.popitem(last=False)
            if asked.banded:
                self._queue(future)
        threading.Thread(target=self._work, args=(desk, asked, future), daemon=True).start()
        return future

    def _queue(self, future: Future[Prediction]) -> None:
        self._waiting.append(future)
        while len(self._waiting) > MOST_WAITING:
            self._waiting.popleft().cancel()

    def _work(self, desk: Predicting, asked: OilAsked, future: Future[Prediction]) -> None:
        if asked.glance_at is not None:
            _finish(future, partial(desk.glance, row=asked.glance_at), asked)
        elif not asked.banded:
            _finish(future, desk.best, asked)
        else:
            self._work_on_bands(desk, asked, future)

    def _work_on_bands(self, desk: Predicting, asked: OilAsked, future: Future[Prediction]) -> None:
        with self._heavy:
            _finish(future, desk.banded, asked)
        with self._lock:
            if future in self._waiting:
                self._waiting.remove(future)


class _Asks(Protocol):
    def __call__(self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction: ...


def _is_lost(future: Future[Prediction]) -> bool:
    """Whether it is asked for again: it was left before its turn, or came to nothing."""
    return future.cancelled() or (future.done() and future.exception() is not None)


def _finish(future: Future[Prediction], ask: _Asks, asked: OilAsked) -> None:
    if not future.set_running_or_notify_cancel():
        return
    try:
        future.set_result(ask(asked.what_if, asked.also))
    except BaseException as error:  # noqa: BLE001 - whoever asks is told
        future.set_exception(error)
