"""The stream by which a page hears of new entries, its own browser's or another's."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import suppress
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse

from fitwright.records.errors import RecordError
from fitwright.records.news import News
from fitwright.web.hands import Hands, hands_of
from fitwright.web.numbers import whole_number

SIGN_OF_LIFE: Final = 15.0
"""Seconds after which a silent stream says that it is there, or notices that nobody listens any more."""


async def listen(request: Request) -> Response:
    """A stream of what is written: for one build with its shop, or for all."""
    build = request.query_params.get("build")
    known = request.headers.get("last-event-id") or request.query_params.get("after", "")
    after = whole_number(known)
    headers = {"cache-control": "no-store", "x-accel-buffering": "no"}
    stream = _stream(hands_of(request), build, after)
    return StreamingResponse(stream, media_type="text/event-stream", headers=headers)


async def _stream(hands: Hands, build: str | None, after: int | None) -> AsyncIterator[str]:
    with hands.listeners.listening() as queue:
        yield "retry: 1000\n\n"
        if after is not None:
            with suppress(RecordError):
                missed = await run_in_threadpool(hands.shop.news, after)
                if missed is not None and missed.concerns(build):
                    yield _event(missed)
        while True:
            try:
                news = await asyncio.wait_for(queue.get(), SIGN_OF_LIFE)
            except TimeoutError:
                yield ": still here\n\n"
            else:
                if news.concerns(build):
                    yield _event(news)


def _event(news: News) -> str:
    return f"event: written\nid: {news.seq}\ndata: {json.dumps({'seq': news.seq})}\n\n"
