"""Whole requests read from a stream. Framing as RFC 9112 6 and 7 have it; the chunked body is after its example."""

import asyncio

import pytest
from casewright.api.job import limits
from casewright.api.web.incoming import HEAD_BYTES, Incoming, LongHeadError, read_body, read_head
from gunicorn.config import Config  # type: ignore[import-untyped]

POST = b"POST /v1/plan?as=csv HTTP/1.1\r\nHost: a\r\n"
CHUNKED = POST + b"Transfer-Encoding: chunked\r\n\r\n"


async def read(sent: bytes, step: int, kept: list[int], proceeded: list[bool]) -> tuple[Incoming | None, bytes]:
    reader = asyncio.StreamReader(limit=HEAD_BYTES)

    async def feed() -> None:
        for at in range(0, len(sent), step):
            reader.feed_data(sent[at : at + step])
            await asyncio.sleep(0)
        reader.feed_eof()

    feeding = asyncio.create_task(feed())
    head = await read_head(reader)
    incoming = None
    if head:
        incoming = await read_body(reader, head, Config(), kept.append, lambda: proceeded.append(True))
    await feeding
    return incoming, await reader.read()


def incoming(sent: bytes, step: int = 65536) -> tuple[Incoming | None, bytes]:
    return asyncio.run(read(sent, step, [], []))


@pytest.mark.parametrize("step", [1, 7, 65536])
@pytest.mark.parametrize(
    ("head", "body"),
    [
        (b"GET /healthz HTTP/1.1\r\nHost: a\r\n\r\n", b""),
        (POST + b"Content-Length: 12\r\n\r\n", b"Hello, world"),
        (CHUNKED, b"5\r\nHello\r\n1\r\n,\r\n6;a=b\r\n world\r\n0\r\nTrailer: x\r\n\r\n"),
        (CHUNKED, b"5\r\n0\r\n\r\n\r\n0\r\n\r\n"),  # data that looks like an end
    ],
)
def test_a_request_ends_where_it_says(head: bytes, body: bytes, step: int) -> None:
    after = b"GET /next HTTP/1.1\r\n"
    got, left = incoming(head + body + after, step)
    assert got is not None
    assert (got.head, got.body, got.readable, got.keep_alive) == (head, body, True, True)
    assert left == after


def test_method_path_and_connection_are_read() -> None:
    got, _ = incoming(POST + b"\r\n")
    assert got is not None
    assert (got.method, got.path, got.keep_alive) == ("POST", "/v1/plan", True)


@pytest.mark.parametrize(
    ("version", "fields", "stays"),
    [
        (b"1.1", b"", True),
        (b"1.1", b"Connection: close\r\n", False),
        (b"1.1", b"Connection: TE, Close\r\n", False),
        (b"1.1", b"Connection: TE\r\nConnection: close\r\n", False),
        (b"1.1", b"Connection: keep-alive, TE\r\n", True),
        (b"1.0", b"", False),
        (b"1.0", b"Connection: Keep-Alive, TE\r\n", True),
    ],
)
def test_a_connection_stays_as_its_options_say(version: bytes, fields: bytes, stays: bool) -> None:  # RFC 9112 9.3
    got, _ = incoming(b"GET / HTTP/%s\r\nHost: a\r\n%s\r\n" % (version, fields))
    assert got is not None
    assert got.keep_alive is stays


@pytest.mark.parametrize(
    "sent",
    [POST + b"Content-Length: 12\r\n\r\nHello", CHUNKED + b"5\r\nHel", CHUNKED + b"zz\r\n{}\r\n", CHUNKED + b"0\r\n"],
)
def test_what_is_cut_off_is_passed_on_once(sent: bytes) -> None:
    got, _ = incoming(sent)
    assert got is not None
    assert sent.startswith(got.head + got.body)
    assert (got.readable, got.keep_alive) == (True, False)


@pytest.mark.parametrize("sent", [b"no HTTP at all\r\n\r\n", b"GET /" + b"a" * 2 * HEAD_BYTES])
def test_what_is_no_http_is_passed_on_as_it_is(sent: bytes) -> None:
    got, _ = incoming(sent)
    assert got is not None
    assert not got.readable
    assert sent.startswith(got.head)
    assert len(got.head) <= HEAD_BYTES + 65536


@pytest.mark.parametrize("fields", [b"X: " + b"a" * 2 * HEAD_BYTES, b"X: a\r\n" * HEAD_BYTES])
def test_a_head_without_end_is_too_long(fields: bytes) -> None:
    with pytest.raises(LongHeadError):
        incoming(POST + fields)


def test_empty_lines_before_a_head_are_let_go() -> None:  # RFC 9112 2.2
    for lines in (1, 2, 3):
        got, _ = incoming(b"\r\n" * lines + POST + b"Content-Length: 2\r\n\r\n{}", 1)
        assert got is not None
        assert (got.head, got.body, got.readable) == (POST + b"Content-Length: 2\r\n\r\n", b"{}", True)


def test_nothing_is_nothing() -> None:
    assert incoming(b"") == (None, b"")
    assert incoming(POST)[0] is None


def test_a_body_over_the_limit_is_read_and_let_go() -> None:
    size, kept = 3 * limits.BODY_BYTES, list[int]()
    got, left = asyncio.run(read(POST + b"Content-Length: %d\r\n\r\n" % size + b"x" * size, 65536, kept, []))
    assert got is not None
    assert limits.BODY_BYTES < len(got.body) == sum(kept) < limits.BODY_BYTES + 100_000
    assert (left, got.keep_alive) == (b"", True)


@pytest.mark.parametrize(
    ("head", "proceeds"),
    [
        (POST, False),
        (POST + b"Expect: 100-continue\r\n", True),
        (POST.replace(b"1.1", b"1.0") + b"Expect: 100-continue\r\n", False),  # RFC 9110 10.1.1
    ],
)
def test_a_client_that_waits_for_it_is_let_proceed(head: bytes, proceeds: bool) -> None:
    proceeded: list[bool] = []
    asyncio.run(read(head + b"Content-Length: 2\r\n\r\n{}", 9, [], proceeded))
    assert proceeded == [True] * proceeds


def test_a_client_that_waits_with_too_much_is_answered_at_once() -> None:
    proceeded: list[bool] = []
    head = POST + b"Expect: 100-continue\r\nContent-Length: %d\r\n\r\n" % (limits.BODY_BYTES + 1)
    got, left = asyncio.run(read(head + b"unread", 65536, [], proceeded))
    assert got is not None
    assert (got.head, got.body, got.readable, got.keep_alive) == (head, b"", True, False)
    assert (proceeded, left) == ([], b"unread")
