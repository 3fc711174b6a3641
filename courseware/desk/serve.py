"""The desk as a server on this machine: a socket first, so that the port is known, then pages on it."""

from __future__ import annotations

import errno
import socket
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import uvicorn

    from courseware.desk.desk import Desk

_MOST_AT_ONCE = 100  # connections


class PortTaken(ValueError):
    """Another program listens on the port, or the machine has no such address."""


def listen(host: str, port: int) -> socket.socket:
    """A socket on that address; with port 0 on one that is free. Raises `PortTaken`."""
    made = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET, socket.SOCK_STREAM)
    try:
        made.bind((host, port))
        made.listen(64)
    except OSError as error:
        made.close()
        if error.errno not in {errno.EADDRINUSE, errno.EADDRNOTAVAIL, errno.EACCES}:
            raise
        raise PortTaken(f"nothing can be opened at {host}, port {port}: {error.strerror}") from None
    return made


def server(desk: Desk) -> uvicorn.Server:
    """A server of the desk, to be run on the socket of its address."""
    import uvicorn

    from courseware.desk.app import make_app

    config = uvicorn.Config(
        make_app(desk), http="h11", ws="none", loop="asyncio", lifespan="on", log_config=None, access_log=False,
        server_header=False, date_header=False, proxy_headers=False, limit_concurrency=_MOST_AT_ONCE,
        timeout_keep_alive=5, timeout_graceful_shutdown=2,
    )  # fmt: skip
    return uvicorn.Server(config)
