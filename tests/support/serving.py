"""Serve a shop for tests and benchmarks, on loopback: in this process, or as a program that can be killed."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import uvicorn
from starlette.applications import Starlette

HOST = "127.0.0.1"


@contextmanager
def serving(app: Starlette) -> Iterator[str]:
    """The address of an application served by a thread of this process, so that a test can inject faults."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.bind((HOST, 0))
    listener.listen()
    config = uvicorn.Config(
        app,
        log_level="critical",
        access_log=False,
        lifespan="off",
        timeout_graceful_shutdown=1,
        timeout_keep_alive=600,  # [s] on a busy machine a test pauses for longer than the usual five
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]})
    thread.start()
    while not server.started:
        time.sleep(0.005)
    try:
        yield f"http://{HOST}:{listener.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join()
        listener.close()


@dataclass(frozen=True, slots=True)
class Served:
    """A server program with its address."""

    address: str
    process: subprocess.Popen[str]


@contextmanager
def served(folder: Path, *, port: int = 0) -> Iterator[Served]:
    """`fitwright serve` for a shop, as a program of its own; ended afterwards if it still runs."""
    program = "from fitwright.cli import main; main()"
    command = [sys.executable, "-c", program, "serve", "--data", str(folder), "--port", str(port)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        said = process.stdout.readline()
        found = re.search(r"http://[\d.]+:\d+", said)
        assert found, f"the server did not say its address but {said!r}"
        try:
            yield Served(found.group(), process)
        finally:
            process.terminate()
            process.wait()


def form_of(page: str, cls: str = "reading") -> dict[str, str]:
    """What a browser would send of the reading form on a page, where nothing is filled in."""
    form = page.partition(f'<form class="{cls}"')[2].partition("</form>")[0]
    assert form, f"no form {cls} on the page"
    fields = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
    chosen = re.search(r'<select name="place".*?<option value="([^"]*)"[^>]* selected', form, re.DOTALL)
    return fields | ({"place": chosen.group(1)} if chosen else {})
