"""Where the desk listens, and how that is written in an address and in a browser's headers."""

from __future__ import annotations

from dataclasses import dataclass
from ipaddress import ip_address

LOOPBACK = "127.0.0.1"


class NotAnAddress(ValueError):
    """What was typed cannot be listened on, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Address:
    """An IP address of this machine with a port."""

    host: str
    port: int

    @property
    def authority(self) -> str:
        """As the header `Host` has it: `127.0.0.1:8123` or `[::1]:8123`."""
        return f"[{self.host}]:{self.port}" if ":" in self.host else f"{self.host}:{self.port}"

    @property
    def origin(self) -> str:
        """As the header `Origin` has it."""
        return f"http://{self.authority}"

    @property
    def cookie(self) -> str:
        """The name of the session's cookie: browsers do not keep cookies apart by port."""
        return f"desk-{self.port}"


def host_of(typed: str) -> str:
    """An IP address as it is listened on.

    Raises `NotAnAddress` for a name, which a stranger's name server could turn round, and for `all addresses`, of which
    no page could know by which it was meant to be asked.
    """
    try:
        found = ip_address(typed.strip().strip("[]"))
    except ValueError:
        raise NotAnAddress(f"{typed} is not an IP address; write one of this machine, as 192.168.1.20") from None
    if found.is_unspecified or found.is_multicast or "%" in str(found):
        raise NotAnAddress(f"{typed} is not the address of one machine; write one of this machine, as 192.168.1.20")
    return str(found)


def stays_here(host: str) -> bool:
    """Whether nothing but this machine can reach an address."""
    return ip_address(host).is_loopback
