"""An answer as a worker makes it, read from the socket it comes through."""

import asyncio
import re
import socket
from collections.abc import AsyncGenerator, Callable

_PIECE = 256 * 1024
_LOOK_SECONDS = 0.5
_HEAD_END = b"\r\n\r\n"
_CONTINUE = b"HTTP/1.1 100 "
_LENGTH = re.compile(rb"\r\ncontent-length: ?(\d+)\r\n", re.IGNORECASE)
_CLOSE = re.compile(rb"\r\nconnection: close\r\n", re.IGNORECASE)


async def answer_to(request: bytes, through: socket.socket) -> AsyncGenerator[bytes, None]:
    """Send a request; yield the head of its answer, then the body in pieces as they come, and close the socket.

    Nothing is yielded where there is no answer. Leaving early closes the socket, so that the worker can notice.
    """
    through.setblocking(False)
    sending = asyncio.create_task(_send(request, through))
    try:
        received = b""
        while _HEAD_END not in received:
            piece = await _receive(through)
            if not piece:
                return
            received += piece
            if received.startswith(_CONTINUE):
                received = received.partition(_HEAD_END)[2]
        head, end, rest = received.partition(_HEAD_END)
        yield head + end
        if rest:
            yield rest
        while piece := await _receive(through):
            yield piece
    finally:
        sending.cancel()
        await asyncio.gather(sending, return_exceptions=True)
        through.close()


async def next_piece(pieces: AsyncGenerator[bytes, None], left: Callable[[], bool]) -> bytes:
    """Return the next piece of an answer, or nothing after the last, or once `left` is true."""
    coming = asyncio.ensure_future(anext(pieces, b""))
    while not coming.done():
        await asyncio.wait((coming,), timeout=_LOOK_SECONDS)
        if left():
            coming.cancel()
            await asyncio.wait((coming,))
            return b""
    return coming.result()


def body_length(head: bytes) -> int | None:
    """Return the length of the body that an answer's head announces, or None where it does not."""
    length = _LENGTH.search(head)
    return None if length is None else int(length[1])


def kept_alive(head: bytes) -> bytes:
    """Return the head of an answer after which the connection stays."""
    return _CLOSE.sub(b"\r\nConnection: keep-alive\r\n", head, count=1)


async def _send(request: bytes, through: socket.socket) -> None:
    await asyncio.get_running_loop().sock_sendall(through, request)
    through.shutdown(socket.SHUT_WR)


async def _receive(through: socket.socket) -> bytes:
    try:
        return await asyncio.get_running_loop().sock_recv(through, _PIECE)
    except ConnectionError:  # it was closed before it had read everything
        return b""
