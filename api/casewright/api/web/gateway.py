"""The process that owns the port: it reads whole requests, gives them to workers in turn, and sends off the answers.

A worker is given no request before all of it is there, and is free again as soon as its answer is made, however slow
the client. Health is answered here, by the same app, so that it waits for no plan. Where a worker is lost with a
request, its client is answered 500, so that nothing on the way sends it to another.

gunicorn forks, watches and replaces this process as it does its workers. Requests reach these through one pair of
sockets that they share: each message carries one end of a pair made for that request alone.
"""

import asyncio
import logging
import resource
import socket
import sys
import time
from collections.abc import AsyncGenerator
from contextlib import aclosing
from dataclasses import dataclass
from enum import Enum
from typing import Any

from casewright.api.job import limits
from casewright.api.web.classes import WorkClass, work_class
from casewright.api.web.incoming import HEAD_BYTES, Incoming, LongHeadError, read_body, read_head
from casewright.api.web.line import BusyError, Line
from casewright.api.web.outgoing import answer_to, body_length, kept_alive, next_piece
from casewright.api.web.worker import AGAIN, ProblemWorker, plain_problem

HEAD_SECONDS = 10
"""Time for a request's head; its body has some more."""

BODY_SECONDS = 20
IDLE_SECONDS = 75
"""How long a connection may wait for its next request."""

SEND_SECONDS = 120
"""How long a client may take to read its answer."""

LAST_SECONDS = 1
"""How long a request may still take to arrive when the service stops."""

LINGER_SECONDS = 1
MOST_CONNECTIONS = 500
"""Fewer where the system gives few descriptors: half go to connections, an eighth to those taken at once."""

KEPT_BYTES = 64 * 1024 * 1024
"""Bytes of bodies and answers kept for all clients: beyond, a long body is answered 503 and answers wait in workers."""

FAIR_BYTES = 64 * 1024
"""A shorter body is always kept."""

FAIR_SECONDS = 10
"""How long an answer may take to leave before it makes room for others, where there is none left."""

_TICK = 0.1
log = logging.getLogger("casewright.web")


class FullError(Exception):
    """Raised where no more bytes can be kept."""


class Stage(Enum):
    """What a connection is at."""

    READING = "reading"
    WORKING = "working"
    SENDING = "sending"


@dataclass(slots=True, eq=False)
class Connection:
    """One client: its streams, what it is at, the bytes kept of its request, and when its answer began to leave."""

    reader: asyncio.StreamReader
    writer: asyncio.StreamWriter
    stage: Stage = Stage.READING
    received: int = 0
    answered_at: float | None = None

    @property
    def kept(self) -> int:
        """Return the bytes kept of its request and its answer."""
        return self.received + self.writer.transport.get_write_buffer_size()

    async def sent(self) -> None:
        """Return when all that was written has left. Raises `TimeoutError`, `OSError`."""
        async with asyncio.timeout(SEND_SECONDS):
            await self.writer.drain()


class Gateway(ProblemWorker):
    """Stands before the workers."""

    def __init__(self, age: int, ppid: int, sockets: Any, app: Any, timeout: float, cfg: Any, log: Any) -> None:
        super().__init__(age, ppid, sockets, app, timeout, cfg, log)
        self.sockets = sockets
        self.max_requests = self.most_kib = sys.maxsize
        self.connections: dict[Connection, None] = {}

    def run(self) -> None:
        """Serve until told to stop."""
        self.line = Line(self.app.workers, self.app.count_line)
        asyncio.run(self.serve())

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Stop, whatever else does: workers wait for this process, and it finishes what it has."""
        self.alive = False

    async def serve(self) -> None:
        """Take connections; when told to stop, take no more and finish the requests that are there."""
        descriptors, _ = resource.getrlimit(resource.RLIMIT_NOFILE)
        self.most_connections = min(MOST_CONNECTIONS, descriptors // 2)
        at_once = min(self.cfg.backlog, descriptors // 8)
        servers = [
            await asyncio.start_server(self.connected, sock=one.sock, limit=HEAD_BYTES, backlog=at_once)
            for one in self.sockets
        ]
        for one in self.sockets:
            one.sock.listen(self.cfg.backlog)  # more may wait than are taken at once
        while self.alive and self.is_parent_alive():
            self.notify()
            await asyncio.sleep(_TICK)
        for server in servers:
            server.close()
        since = time.monotonic()
        await asyncio.sleep(_TICK)  # those just taken begin
        while self.connections and time.monotonic() < since + self.cfg.graceful_timeout:
            self.notify()
            for connection in self.connections:
                if connection.stage is Stage.READING and time.monotonic() > since + LAST_SECONDS:
                    connection.writer.transport.abort()
            await asyncio.sleep(_TICK)

    async def connected(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        """Answer the requests of one connection."""
        writer.transport.set_write_buffer_limits(high=0)  # drained means sent
        connection = Connection(reader, writer)
        if len(self.connections) >= self.most_connections:
            self.let_one_go()
        self.connections[connection] = None
        try:
            await self.converse(connection)
            await connection.sent()
            writer.write_eof()
            async with asyncio.timeout(LINGER_SECONDS):
                while await reader.read(HEAD_BYTES):  # bytes left unread would cost the client its answer
                    pass
            writer.close()
        except (OSError, TimeoutError):
            writer.transport.abort()
        finally:
            self.connections.pop(connection, None)

    def let_one_go(self) -> None:
        """Close the connection that has been reading longest, or else sending."""
        for stage in (Stage.READING, Stage.SENDING):
            for connection in self.connections:
                if connection.stage is stage:
                    connection.writer.transport.abort()
                    del self.connections[connection]  # it ends later, and the next that comes is to end another
                    return

    def room(self, needed_by: Connection) -> bool:
        """Return whether no more is kept than may be. Where it is, clients that read slowly are let go of first."""
        over = sum(one.kept for one in self.connections) - KEPT_BYTES
        if over <= 0:
            return True
        since = time.monotonic() - FAIR_SECONDS
        slow = [one for one in self.connections if one.answered_at is not None and one.answered_at < since]
        for one in sorted(slow, key=lambda one: one.kept, reverse=True):
            if over > 0 and one is not needed_by:
                over -= one.kept
                one.writer.transport.abort()
        return over <= 0

    async def converse(self, connection: Connection) -> None:
        """Answer one request after another, until either side is to close."""
        patience = HEAD_SECONDS
        stays = True
        while stays:
            connection.stage, connection.received, connection.answered_at = Stage.READING, 0, None
            try:
                incoming = await self.incoming(connection, patience)
            except TimeoutError:
                if connection.received > limits.BODY_BYTES:
                    refuse(connection, 413, f"at most {limits.BODY_BYTES} bytes", "more", "Send a smaller body.")
                elif patience == HEAD_SECONDS:
                    refuse(connection, 408, f"a whole request in {HEAD_SECONDS} s and {BODY_SECONDS} s", "less of it")
                return
            except FullError:
                refuse(connection, 503, f"at most {KEPT_BYTES} bytes on their way", "more")
                return
            except LongHeadError:
                refuse(connection, 431, f"a head of at most {HEAD_BYTES} bytes", "more", "Send shorter fields.")
                return
            if incoming is None:
                return
            connection.stage = Stage.WORKING
            stays = await self.answer(connection, incoming)
            connection.stage = Stage.SENDING
            await connection.sent()
            patience = IDLE_SECONDS

    async def incoming(self, connection: Connection, patience: float) -> Incoming | None:
        """Return the next whole request, or None where there is none.

        Raises `FullError`, `LongHeadError`, `TimeoutError`.
        """

        def keep(size: int) -> None:
            connection.received += size
            if connection.received > FAIR_BYTES and not self.room(connection):
                raise FullError

        def proceed() -> None:
            connection.writer.write(b"HTTP/1.1 100 Continue\r\n\r\n")

        async with asyncio.timeout(patience):
            head = await read_head(connection.reader)
        if not head:
            return None
        async with asyncio.timeout(BODY_SECONDS):
            return await read_body(connection.reader, head, self.cfg, keep, proceed)

    async def answer(self, connection: Connection, incoming: Incoming) -> bool:
        """Answer one request. Return whether the connection stays for the next."""
        kind = work_class(incoming.method, incoming.path, incoming.body)
        if kind is WorkClass.HEALTH or not incoming.readable:
            return await self.relay(connection, incoming, self.answered_here(incoming))
        try:
            await self.line.enter(kind)
        except BusyError:
            refuse(connection, 503, "room in the line of requests", "none")
            return False
        try:
            if connection.writer.transport.is_closing():  # nobody is there to read the answer
                return False
            return await self.relay(connection, incoming, self.answered_by_a_worker(connection, incoming))
        finally:
            self.line.leave(kind)

    def answered_here(self, incoming: Incoming) -> AsyncGenerator[bytes, None]:
        """Answer in this process: health, and what is no HTTP."""
        ours, theirs = socket.socketpair()
        ours.sendall(incoming.head)
        ours.shutdown(socket.SHUT_WR)
        self.handle(self.app.gateway_end, theirs, ("", 0))
        return answer_to(b"", ours)

    def answered_by_a_worker(self, connection: Connection, incoming: Incoming) -> AsyncGenerator[bytes, None]:
        """Give a free worker one end of a new pair; the request goes through the other."""
        ours, theirs = socket.socketpair()
        host, port = (connection.writer.get_extra_info("peername") or ("", 0))[:2]
        with theirs:
            socket.send_fds(self.app.gateway_end, [f"{host} {port}".encode()], [theirs.fileno()])
        return answer_to(incoming.head + incoming.body, ours)

    async def relay(self, connection: Connection, incoming: Incoming, answer: AsyncGenerator[bytes, None]) -> bool:
        """Send a client the answer to its request, as it comes. Return whether the connection stays for the next."""
        client, sent = connection.writer, 0
        async with aclosing(answer) as pieces:
            head = await anext(pieces, b"")
            if not head:
                if incoming.readable:
                    refuse(connection, 500, "an answer", "none: the worker was lost")
                return False
            length = body_length(head)
            stays = incoming.keep_alive and length is not None and self.alive and not self.app.draining()
            connection.answered_at = time.monotonic()
            client.write(kept_alive(head) if stays else head)
            # Work whose answer is sent as it comes ends when nobody is there; other work keeps its worker to the end.
            left = client.transport.is_closing if length is None else bool
            while piece := await next_piece(pieces, left):
                client.write(piece)
                sent += len(piece)
                while not (self.room(connection) or client.transport.is_closing()):
                    await asyncio.sleep(_TICK)
        return stays and (sent == length or incoming.method == "HEAD" or head[9:12] == b"304")


def refuse(connection: Connection, status: int, rule: str, got: str, fix: str = AGAIN) -> None:
    """Answer a request that no worker answers."""
    log.warning("refused", extra={"fields": {"status": status}})
    connection.writer.write(plain_problem(status, rule, got, fix))
