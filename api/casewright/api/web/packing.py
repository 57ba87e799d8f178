"""Answers packed by gzip for clients that take it (RFC 9110, 8.4.1.3): what packs well, and is not too short for it."""

import gzip

from flask import Request, Response

LEAST = 1_000
"""Bytes from which an answer is packed."""
_LEVEL = 6
_PACKABLE = frozenset({
    "application/json", "application/problem+json", "application/xml", "text/csv", "text/plain", "text/html",
    "text/css", "text/javascript", "image/svg+xml", "image/vnd.dxf", "model/gltf-binary",
})  # fmt: skip


def pack(request: Request, response: Response) -> None:
    """Pack an answer where that is of use. The same answer always gives the same bytes; its tag becomes a weak one."""
    if response.is_streamed or response.mimetype not in _PACKABLE or response.status_code == 304:
        return
    response.vary.add("Accept-Encoding")
    body = response.get_data()
    if len(body) < LEAST or not request.accept_encodings["gzip"] or "Content-Encoding" in response.headers:
        return
    response.set_data(gzip.compress(body, _LEVEL, mtime=0))
    response.headers["Content-Encoding"] = "gzip"
    tag, weak = response.get_etag()
    if tag is not None and not weak:
        response.set_etag(tag, weak=True)
