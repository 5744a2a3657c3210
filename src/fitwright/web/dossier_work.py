"""Dossiers, made beside the pages: one after the other, kept as long as nothing was entered since."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import Any, Final, Literal, NamedTuple

from fitwright.dossier.asked import Depth, Paper
from fitwright.dossier.making import Dossier
from fitwright.dossier.tree import Document
from fitwright.units.families import Family
from fitwright.web.shop import ShopForWeb

MOST: Final = 12
"""So many are kept, those asked for last; a dossier has a few hundred kilobytes, with photos more."""

State = Literal["not made", "getting ready", "ready", "failed"]


class Wanted(NamedTuple):
    """What is asked for: of which build, how deep, on which paper (None: the document without its pages)."""

    build: str
    depth: Depth
    paper: Paper | None
    units: Family
    revision: int | None = None


@dataclass(frozen=True, slots=True)
class Making:
    """How far something is: made, being made, or not; `wrong` says why it cannot be made."""

    state: State
    document: Document | None = None
    dossier: Dossier | None = None
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class _Key:
    wanted: Wanted
    position: int


@dataclass(slots=True)
class DossierWork:
    """What is made or being made; one at a time, so that the bench stays quick."""

    _kept: OrderedDict[_Key, Future[Any]] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)
    _worker: ThreadPoolExecutor = field(
        default_factory=lambda: ThreadPoolExecutor(max_workers=1, thread_name_prefix="dossier")
    )

    def ask(self, shop: ShopForWeb, wanted: Wanted, *, wait: float = 0.0) -> Making:
        """Have it made, unless it is made already; how far it is after so many seconds."""
        future = self._future(shop, wanted)
        try:
            future.exception(wait)
        except (TimeoutError, CancelledError):  # cancelled: it is begun anew when it is asked for again
            return Making("getting ready")
        return _made(future)

    def look(self, shop: ShopForWeb, wanted: Wanted) -> Making:
        """How far it is; nothing is begun."""
        with self._lock:
            future = self._kept.get(_Key(wanted, shop.position))
        if future is None:
            return Making("not made")
        return _made(future) if future.done() else Making("getting ready")

    def _future(self, shop: ShopForWeb, wanted: Wanted) -> Future[Any]:
        key = _Key(wanted, shop.position)
        with self._lock:
            held = self._kept.get(key)
            if held is None or (held.done() and held.exception() is not None):
                held = self._worker.submit(_maker(shop, wanted))
                self._kept[key] = held
            self._kept.move_to_end(key)
            while len(self._kept) > MOST:
                _, left = self._kept.popitem(last=False)
                left.cancel()
            return held


def _maker(shop: ShopForWeb, wanted: Wanted) -> Callable[[], Document | Dossier]:
    build, depth, paper, units, revision = wanted
    if revision is not None:
        return lambda: shop.handed_over(build, revision)
    if paper is None:
        return lambda: shop.dossier_document(build, depth, units=units)
    return lambda: shop.dossier(build, depth, paper, units=units)


def _made(future: Future[Any]) -> Making:
    error = future.exception()
    if error is not None:
        return Making("failed", wrong=str(error) or type(error).__name__)
    found = future.result()
    if isinstance(found, Document):
        return Making("ready", document=found)
    return Making("ready", dossier=found)
