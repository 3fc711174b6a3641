"""Debian's firefox driven by its own remote protocol (Marionette), which needs no other program."""

from __future__ import annotations

import json
import socket
import subprocess
import time
from pathlib import Path
from typing import Any

PATIENCE = 60  # seconds: a browser starts slowly on a busy machine


class Firefox:
    """One window of firefox with a profile of its own, without a screen."""

    def __init__(self, program: Path, profile: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        (profile / "user.js").write_text(f'user_pref("marionette.port", {port});\n', encoding="utf-8")
        self._process = subprocess.Popen(
            [str(program), "--headless", "--marionette", "--no-remote", "--profile", str(profile)],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        self._line = self._connected(port)
        self._said = 0
        self._hear()
        self.ask("WebDriver:NewSession", capabilities={})

    def _connected(self, port: int) -> socket.socket:
        end = time.monotonic() + PATIENCE
        while True:
            try:
                return socket.create_connection(("127.0.0.1", port), timeout=PATIENCE)
            except OSError:
                if time.monotonic() > end or self._process.poll() is not None:
                    self._process.kill()
                    raise
                time.sleep(0.1)

    def _hear(self) -> Any:
        digits = b""
        while not digits.endswith(b":"):
            digits += self._line.recv(1)
        left, heard = int(digits[:-1]), b""
        while len(heard) < left:
            heard += self._line.recv(left - len(heard))
        return json.loads(heard)

    def ask(self, command: str, **given: Any) -> Any:
        """Does a command of WebDriver, and gives what comes of it."""
        self._said += 1
        text = json.dumps([0, self._said, command, given]).encode()
        self._line.sendall(b"%d:%s" % (len(text), text))
        _, _, wrong, found = self._hear()
        assert wrong is None, wrong
        return found

    def run(self, script: str) -> Any:
        """What a script on the page returns."""
        return self.ask("WebDriver:ExecuteScript", script=script, args=[])["value"]

    def until(self, script: str) -> Any:
        """Waits until a script returns something."""
        end = time.monotonic() + PATIENCE
        while not (found := self.run(script)):
            assert time.monotonic() < end, script
            time.sleep(0.1)
        return found

    def close(self) -> None:
        self.ask("Marionette:Quit", flags=["eForceQuit"])
        self._line.close()
        self._process.wait(PATIENCE)
