"""`fitwright demo` and `fitwright serve`: the bench in the browser, on this machine only."""

from __future__ import annotations

import socket
import sys
import tempfile
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data

HOST = "127.0.0.1"
RARE_COLLECTIONS = (50_000, 20, 20)
"""Python looks through a whole shop in memory for lost objects, 0.1 s in which no page moves: less often."""
Port = Annotated[int, Parameter(help="Port on this machine; 0 takes any free one.")]


def demo(
    *,
    prepare: Annotated[
        Path | None, Parameter(help="Write the demo shop into this folder and stop, instead of serving it.")
    ] = None,
    port: Port = 8620,
) -> int:
    """Serve a complete demo shop: two fictional engines with their readings.

    Example: fitwright demo --prepare demo && fitwright check corrie-five --data demo
    """
    from fitwright.demo import prepare_demo

    if prepare is not None:
        names = prepare_demo(prepare)
        sys.stdout.write(f"The demo shop is in {prepare}: {', '.join(names)}.\n")
        return OK
    with tempfile.TemporaryDirectory(prefix="fitwright-demo-") as folder:
        prepare_demo(Path(folder) / "shop")
        sys.stdout.write("This demo shop lives until you stop it; its entries are not kept.\n")
        return _serve(Path(folder) / "shop", port)


def serve(*, data: Data = DEFAULT_DATA, port: Port = 8620) -> int:
    """Serve the shop in a folder to browsers on this machine.

    Example: fitwright serve --data ~/fitwright
    """
    return _serve(data.expanduser(), port)


def _serve(data: Path, port: int) -> int:
    import gc

    import uvicorn

    from fitwright.web.app import create_app
    from fitwright.wiring import open_shop

    gc.set_threshold(*RARE_COLLECTIONS)
    listener = _listen(port)
    shop = open_shop(data)
    sys.stderr.writelines(f"{trouble}\n" for trouble in shop.troubles)
    sys.stdout.write(f"fitwright is at http://{HOST}:{listener.getsockname()[1]}/ (Ctrl-C stops it)\n")
    sys.stdout.flush()
    config = uvicorn.Config(
        create_app(shop), log_level="warning", access_log=False, lifespan="off", timeout_graceful_shutdown=1
    )
    try:
        uvicorn.Server(config).run(sockets=[listener])
    finally:
        shop.close()
    return OK


def _listen(port: int) -> socket.socket:
    # With the protocol named, asyncio sends answers at once; without it each waits 40 ms for a delayed ACK.
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((HOST, port))
        listener.listen()  # before the address is said: a page asked for at once waits instead of failing
    except OSError as error:
        listener.close()
        raise UsageError(
            f"Port {port} of this machine is taken; name another with --port, or 0 for any free one."
        ) from error
    return listener
