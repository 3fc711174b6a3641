"""Where the desk listens, as RFC 3986, section 3.2.2, writes it: an IPv6 address stands in brackets."""

from __future__ import annotations

import pytest

from courseware.desk.address import Address, NotAnAddress, host_of, stays_here


@pytest.mark.parametrize(("host", "origin"), [("127.0.0.1", "http://127.0.0.1:8123"), ("::1", "http://[::1]:8123")])
def test_an_address_is_written_as_browsers_write_it(host: str, origin: str) -> None:
    address = Address(host=host, port=8123)
    assert address.origin == origin
    assert address.cookie == "desk-8123"


@pytest.mark.parametrize(
    ("typed", "host", "here"),
    [("127.0.0.1", "127.0.0.1", True), (" ::1 ", "::1", True), ("[::1]", "::1", True), ("127.3.2.1", "127.3.2.1", True), ("192.168.1.20", "192.168.1.20", False)],
)  # fmt: skip
def test_what_stays_on_this_machine_is_known(typed: str, host: str, here: bool) -> None:
    assert host_of(typed) == host
    assert stays_here(host) == here


@pytest.mark.parametrize(
    "typed", ["", "localhost", "0.0.0.0", "::", "224.0.0.1", "1.2.3", "127.0.0.1:80", "fe80::1%eth0"]
)
def test_names_and_addresses_of_no_one_machine_are_refused(typed: str) -> None:
    with pytest.raises(NotAnAddress):
        host_of(typed)
