"""Progress as lines of JSON over HTTP (`application/x-ndjson`).

Each line but the last is `{"progress": {"stage", "done", "of"}}`. The last is `{"result": ...}`, the answer that
JSON would have held (a file as `{"media_type", "stops", "base64"}`), or `{"problem": ...}`, the problem that would be
answered: by then the status has left. What reading the document alone finds wrong is still answered by its status.

While a step lasts nothing is sent, but the client is looked for: once it has left, the lines end, and gunicorn's worker
leaves with the work.
"""

import contextvars
import select
import socket
import threading
from base64 import b64encode
from collections.abc import Callable, Iterator
from contextlib import suppress
from queue import Empty, SimpleQueue
from typing import Any

from casewright.api.engine import Progress
from casewright.api.web.negotiation import LINES, TYPES
from casewright.api.wire.plan_document import to_bytes
from casewright.sdk.memory import is_want_of_memory
from flask import Flask, Response, current_app, request

LOOK_SECONDS = 0.5
_END = object()


def file_result(content: bytes, media_type: str, stops: int) -> dict[str, str | int]:
    """Return a file as a value that a line of JSON can hold, and how many stops the plan has."""
    return {"media_type": media_type, "stops": stops, "base64": b64encode(content).decode("ascii")}


def lines_response(check: Callable[[], object], work: Callable[[Progress], Any]) -> Response:
    """Return a response that does the work while it is read: a line for each step, then the result.

    `check` is called first: what it raises is answered by its status, which cannot change once lines are sent. `work`
    gets the function to report its progress to and returns a JSON value. It runs in a thread of its own, so that each
    line leaves as soon as its step is reported.
    """
    check()
    app: Flask = current_app._get_current_object()  # type: ignore[attr-defined]
    queue: SimpleQueue[Any] = SimpleQueue()
    client: socket.socket | None = request.environ.get("gunicorn.socket")

    def report(stage: str, done: int, of: int) -> None:
        queue.put({"progress": {"stage": stage, "done": done, "of": of}})

    def run() -> None:
        with suppress(MemoryError), app.app_context():
            try:
                queue.put({"result": work(report)})
            except Exception as error:
                if is_want_of_memory(error):
                    return
                queue.put({"problem": _problem(app, error)})
            queue.put(_END)

    def lines() -> Iterator[bytes]:
        thread = threading.Thread(target=contextvars.copy_context().run, args=(run,), daemon=True)
        with suppress(RuntimeError):  # the system gives no memory for a thread: it is as one that ended early
            thread.start()
        while True:
            try:
                line = queue.get(timeout=LOOK_SECONDS if thread.is_alive() else 0)
            except Empty:
                if _left(client):
                    return
                if not thread.is_alive() and queue.empty():
                    yield to_bytes({"problem": _problem(app, MemoryError())})
                    return
                continue
            if line is _END:
                return
            yield to_bytes(line)

    return Response(lines(), mimetype=TYPES[LINES], headers={"X-Accel-Buffering": "no"})


def _left(client: socket.socket | None) -> bool:
    """Return whether the other end of a socket is closed both ways; where the server shows none, no."""
    if client is None:
        return False
    poll = select.poll()
    poll.register(client, 0)  # a hang-up is told of unasked
    return any(event & select.POLLHUP for _, event in poll.poll(0))


def _problem(app: Flask, error: Exception) -> Any:
    """Return the body of the problem that the error would have been answered with."""
    with app.test_request_context():
        answer = app.handle_user_exception(error)
    assert isinstance(answer, Response)
    return answer.get_json()
