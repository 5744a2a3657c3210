"""The socket that `fitwright serve` listens on."""

import socket

import pytest

from fitwright.cli.errors import UsageError
from fitwright.cli.serving import HOST, _listen


@pytest.fixture
def listener():
    with _listen(0) as opened:
        yield opened


def test_a_page_asked_for_as_soon_as_the_address_is_said_waits_instead_of_failing(listener):
    with socket.create_connection(listener.getsockname(), timeout=5):
        accepted, _ = listener.accept()
        accepted.close()


def test_answers_are_sent_at_once(listener):
    """Asyncio turns off waiting for a full packet only where the socket names its protocol."""
    with socket.create_connection(listener.getsockname(), timeout=5):
        accepted, _ = listener.accept()
        with accepted:
            assert accepted.proto == socket.IPPROTO_TCP


def test_only_this_machine_is_listened_to(listener):
    assert listener.getsockname()[0] == HOST == "127.0.0.1"


def test_a_port_that_is_taken_is_said(listener):
    with pytest.raises(UsageError, match="is taken; name another"):
        _listen(listener.getsockname()[1])
