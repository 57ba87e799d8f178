"""One whole request read from a connection, before any worker is given it.

gunicorn's own parser reads the head, so that nothing is understood here in another way than by the worker that answers.
What it cannot read comes back as it is, and the worker's problem is the answer.
"""

import asyncio
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from casewright.api.job import limits
from gunicorn.http.errors import NoMoreData, ParseException  # type: ignore[import-untyped]
from gunicorn.http.parser import RequestParser  # type: ignore[import-untyped]

HEAD_BYTES = 64 * 1024
"""A longer head is refused, where no lower limit of gunicorn's is broken before."""

_HEAD_END = b"\r\n\r\n"
_PIECE = 64 * 1024
_SPARE = 4096
_CHUNK_SIZE = re.compile(rb"([0-9A-Fa-f]{1,15})[ \t]*(?:;.*)?\r\n", re.DOTALL)


class LongHeadError(Exception):
    """Raised where a head does not end within its limit."""


@dataclass(frozen=True, slots=True)
class Incoming:
    """A request: its bytes, and as much as is needed to pass it on. `readable` is false where HTTP is broken."""

    head: bytes
    body: bytes = b""
    method: str = ""
    path: str = ""
    readable: bool = False
    keep_alive: bool = False


class Received:
    """The bytes that arrived for one request. Those over the limit of a body are let go: they are refused anyway."""

    def __init__(self, keep: Callable[[int], None]) -> None:
        self.pieces: list[bytes] = []
        self.size, self._keep = 0, keep

    def add(self, piece: bytes) -> None:
        """Take a piece. What `keep` raises where there is no room for it passes through."""
        if self.size <= limits.BODY_BYTES + _SPARE:
            self.size += len(piece)
            self._keep(len(piece))
            self.pieces.append(piece)


async def read_head(reader: asyncio.StreamReader) -> bytes:
    """Return a request's head, or what there is of it where it is too long; nothing where the connection ended.

    Empty lines before it are let go (RFC 9112 2.2).
    """
    head = b""
    while not head:
        try:
            head = (await reader.readuntil(_HEAD_END)).lstrip(b"\r\n")
        except asyncio.LimitOverrunError as error:
            return await reader.read(error.consumed)
        except asyncio.IncompleteReadError:
            return b""
    return head


async def read_body(
    reader: asyncio.StreamReader, head: bytes, config: Any, keep: Callable[[int], None], proceed: Callable[[], None]
) -> Incoming:
    """Return the request that begins with a head, its body read as far as it arrives.

    `keep` is called with the size of each piece kept, `proceed` where the client waits for 100 (Continue); one that
    would send more than may be is not let proceed. Raises `LongHeadError`.
    """
    try:
        parsed = next(RequestParser(config, iter((head,)), ("", 0)))
    except ParseException:
        return Incoming(head)
    except (NoMoreData, StopIteration):
        raise LongHeadError from None
    headers: Sequence[tuple[str, str]] = parsed.headers
    received = Received(keep)
    length = next((int(value) for name, value in headers if name == "CONTENT-LENGTH"), 0)
    waits = parsed.version >= (1, 1) and any(
        name == "EXPECT" and value.lower() == "100-continue" for name, value in headers
    )
    if waits and length <= limits.BODY_BYTES:
        proceed()
    if any(name == "TRANSFER-ENCODING" for name, _ in headers):
        whole = await _chunks(reader, received)
    elif waits and length > limits.BODY_BYTES:
        whole = False
    else:
        whole = await _exactly(reader, length, received)
    body, stays = b"".join(received.pieces), whole and _stays(parsed.version, headers)
    return Incoming(head, body, parsed.method, parsed.path, readable=True, keep_alive=stays)


def _stays(version: tuple[int, int], headers: Sequence[tuple[str, str]]) -> bool:
    """Return whether the client leaves the connection open after its request (RFC 9112 9.3): its options are a list."""
    given = ",".join(value for name, value in headers if name == "CONNECTION")
    options = {option.strip().lower() for option in given.split(",")}
    return "close" not in options and (version >= (1, 1) or "keep-alive" in options)


async def _exactly(reader: asyncio.StreamReader, size: int, received: Received) -> bool:
    """Receive so many bytes. Return whether they came before the connection ended."""
    while size:
        piece = await reader.read(min(size, _PIECE))
        if not piece:
            return False
        received.add(piece)
        size -= len(piece)
    return True


async def _chunks(reader: asyncio.StreamReader, received: Received) -> bool:
    """Receive chunks to the last, and the trailers. Return whether all were there and read as chunks."""
    size = -1
    while size:
        line = await _line(reader)
        received.add(line)
        match = _CHUNK_SIZE.fullmatch(line)
        if match is None:
            return False
        size = int(match[1], 16)
        if size and not await _exactly(reader, size + 2, received):
            return False
    while (line := await _line(reader)) not in (b"\r\n", b""):
        received.add(line)
    received.add(line)
    return line == b"\r\n"


async def _line(reader: asyncio.StreamReader) -> bytes:
    try:
        return await reader.readuntil(b"\r\n")
    except asyncio.IncompleteReadError as error:
        return error.partial
    except asyncio.LimitOverrunError:
        return b""
