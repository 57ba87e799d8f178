"""How heavy a request is."""

import pytest
from casewright.api.web.classes import HEAVY_BODY, HEAVY_ROWS, WorkClass, work_class

PLAIN = b'{"units": "mm", "cabinets": []}'


@pytest.mark.parametrize(
    ("method", "path", "body", "kind"),
    [
        ("GET", "/healthz", b"", WorkClass.HEALTH),
        ("HEAD", "/readyz", b"", WorkClass.HEALTH),
        ("POST", "/healthz", PLAIN, WorkClass.SMALL),  # answered 405, by a worker
        ("GET", "/healthz", PLAIN, WorkClass.SMALL),
        ("GET", "/v1/value", b"", WorkClass.SMALL),
        ("POST", "/v1/plan", PLAIN, WorkClass.SMALL),
        ("POST", "/v1/plan", PLAIN.ljust(HEAVY_BODY), WorkClass.HEAVY),
        ("POST", "/v1/plan", b'{"cabinets": [' + b'{"id": "a"},' * HEAVY_ROWS, WorkClass.HEAVY),
        ("POST", "/v1/plan", b'{"cabinets": [' + b"{},\n" * HEAVY_ROWS, WorkClass.SMALL),
        ("POST", "/v1/plan", b"id,width\r\n" + b"a,600\r\n" * HEAVY_ROWS, WorkClass.HEAVY),
        ("POST", "/v1/plan", b'{"stock": {}}', WorkClass.HEAVY),
        ("POST", "/v1/parts", b'{"\\u0073tock": {}}', WorkClass.HEAVY),
        ("POST", "/v1/parts", b"id,width,job.stock.kerf\n", WorkClass.HEAVY),
        ("POST", "/v1/booklet", PLAIN, WorkClass.HEAVY),
        ("POST", "//v1/%62ooklet", PLAIN, WorkClass.HEAVY),
    ],
)
def test_classes(method: str, path: str, body: bytes, kind: WorkClass) -> None:
    assert work_class(method, path, body) is kind
