"""Answers read from the socket they come through."""

import asyncio
import socket
import threading
from collections.abc import Callable, Coroutine
from typing import Any

import pytest
from casewright.api.web.outgoing import answer_to, body_length, kept_alive, next_piece

HEAD = b"HTTP/1.1 200 OK\r\nConnection: close\r\nContent-Length: 5\r\n\r\n"


def answered(respond: Callable[[socket.socket], None], request: bytes = b"GET / HTTP/1.1\r\n\r\n") -> list[bytes]:
    """Return the pieces of the answer that a thread makes."""
    ours, theirs = socket.socketpair()

    def work() -> None:
        with theirs:
            respond(theirs)

    async def read() -> list[bytes]:
        return [piece async for piece in answer_to(request, ours)]

    thread = threading.Thread(target=work)
    thread.start()
    pieces = run(read())
    thread.join()
    assert ours.fileno() == -1, "the socket is left open"
    return pieces


def run(work: Coroutine[Any, Any, Any]) -> Any:
    return asyncio.run(asyncio.wait_for(work, 10))


def whole(client: socket.socket) -> bytes:
    received = b""
    while piece := client.recv(65536):
        received += piece
    return received


def test_the_request_is_sent_whole_and_the_head_comes_first() -> None:
    request, seen = b"x" * 1_000_000, list[int]()

    def respond(client: socket.socket) -> None:
        seen.append(len(whole(client)))
        client.sendall(HEAD + b"hel")
        client.sendall(b"lo")

    head, *body = answered(respond, request)
    assert (seen, head, b"".join(body)) == ([1_000_000], HEAD, b"hello")


def test_an_answer_given_before_the_request_was_read_still_comes() -> None:
    # As a worker does that refuses a body: more than the buffers hold is then never read.
    head, *body = answered(lambda client: client.sendall(HEAD + b"hello"), b"x" * 1_000_000)
    assert (head, b"".join(body)) == (HEAD, b"hello")


def test_100_is_left_out() -> None:
    head, *_ = answered(lambda client: client.sendall(b"HTTP/1.1 100 Continue\r\n\r\n" + HEAD + b"hello"))
    assert head == HEAD


@pytest.mark.parametrize("sent", [b"", b"HTTP/1.1 200 OK\r\nConte"])
def test_a_lost_worker_gives_nothing(sent: bytes) -> None:
    assert answered(lambda client: client.sendall(sent)) == []


def test_heads() -> None:
    assert body_length(HEAD) == 5
    assert body_length(b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n") is None
    assert kept_alive(HEAD) == HEAD.replace(b"close", b"keep-alive")


def test_waiting_ends_when_the_client_has_left() -> None:
    async def work() -> list[bytes]:
        ours, theirs = socket.socketpair()
        pieces = answer_to(b"", ours)
        theirs.sendall(HEAD + b"h")
        got = [await next_piece(pieces, bool), await next_piece(pieces, bool), await next_piece(pieces, lambda: True)]
        assert theirs.recv(1) == b""  # ours is closed, so that the worker can notice
        theirs.close()
        return got

    assert run(work()) == [HEAD, b"h", b""]
