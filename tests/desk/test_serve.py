"""The desk on a real port."""

from __future__ import annotations

import http.client

import pytest

from courseware.desk.address import LOOPBACK
from courseware.desk.serve import PortTaken, listen
from tests.desk.conftest import running


def test_a_port_that_is_taken_is_told(work) -> None:
    with listen(LOOPBACK, 0) as taken, pytest.raises(PortTaken, match="Address already in use"):
        listen(LOOPBACK, taken.getsockname()[1])


def test_the_desk_answers_at_its_address_and_is_closed_without_a_session(work) -> None:
    with running(work) as desk:
        asked = http.client.HTTPConnection(desk.address.host, desk.address.port, timeout=10)
        asked.request("GET", "/")
        with asked.getresponse() as answer:
            assert answer.status == 401
        asked.close()
