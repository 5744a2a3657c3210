"""What was written since: one look into the record for all pages that listen."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Final

from starlette.concurrency import run_in_threadpool

from fitwright.records.errors import RecordError
from fitwright.records.news import News
from fitwright.web.shop import ShopForWeb

LOOK_EVERY: Final = 0.2
"""Seconds between two looks into the record while anybody listens; other programs write there too."""


class Listeners:
    """The pages that listen, and the one task that looks for them."""

    def __init__(self, shop: ShopForWeb) -> None:
        self._shop = shop
        self._queues: set[asyncio.Queue[News]] = set()
        self._task: asyncio.Task[None] | None = None

    @contextmanager
    def listening(self) -> Iterator[asyncio.Queue[News]]:
        """What comes from now on."""
        queue: asyncio.Queue[News] = asyncio.Queue()
        self._queues.add(queue)
        if self._task is None:
            self._task = asyncio.create_task(self._look())
        try:
            yield queue
        finally:
            self._queues.discard(queue)

    async def _look(self) -> None:
        try:
            await self._look_while_anybody_listens()
        finally:  # whatever ended it: whoever listens next begins it anew
            self._task = None

    async def _look_while_anybody_listens(self) -> None:
        seen = self._shop.position
        while self._queues:
            news = None
            with suppress(RecordError):  # the pages themselves say what is wrong with it
                news = await run_in_threadpool(self._shop.news, seen)
            if news is not None:
                seen = news.seq
                for queue in self._queues:
                    queue.put_nowait(news)
            await asyncio.sleep(LOOK_EVERY)
