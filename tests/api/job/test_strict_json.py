"""What RFC 8259 leaves open is refused, with the place named. Rules: RFC 8259 sections 4, 6, 7, 8.1, 9."""

import json

import pytest
from casewright.api.job import limits
from casewright.api.job.strict_json import read_json
from casewright.sdk.errors import BadDocumentError, UnusableJobError
from hypothesis import given, settings
from hypothesis import strategies as st

DEEP = limits.JSON_DEPTH

REFUSED: list[tuple[bytes, str, str]] = [
    (b"", "", "JSON text"),
    (b"{", "", "JSON text"),
    (b'{"a": 1,}', "", "JSON text"),
    (b"{'a': 1}", "", "JSON text"),
    (b'{"a": 01}', "", "JSON text"),
    (b'{"a": +1}', "", "JSON text"),
    (b'{"a": .5}', "", "JSON text"),
    (b'{"a": "\x01"}', "", "JSON text"),
    (b'{"a": 1} x', "", "JSON text"),
    (b'{"a": "\xff"}', "", "UTF-8"),
    ('{"a": "é"}'.encode("latin-1"), "", "UTF-8"),
    ('{"a": 1}'.encode("utf-16"), "", "UTF-8"),
    (b'{"a": "\xed\xa0\x80"}', "", "UTF-8"),
    (b'{"a": NaN}', "/a", "JSON number"),
    (b'{"a": [1, Infinity]}', "/a/1", "JSON number"),
    (b'{"a": -Infinity}', "/a", "JSON number"),
    (b'{"a": 1e400}', "/a", "double"),
    (b'{"a": -1e999}', "/a", "double"),
    (b'{"a": ' + b"9" * 5000 + b"}", "/a", "digits"),
    (b'{"a": 1234567890123456789}', "/a", "digits"),
    (b'{"a": -18446744073709551616}', "/a", "digits"),
    (b'{"a": 0.' + b"1" * 500 + b"}", "/a", "characters"),
    (b'{"a": 1, "b": 2, "a": 1}', "/a", "each key once"),
    (b'{"x": [{"a": 1, "a": 1}]}', "/x/0/a", "each key once"),
    (b'{"a/b": 1, "a\\/b": 2}', "/a~1b", "each key once"),
    (b'{"a": "\\ud800"}', "/a", "whole characters"),
    (b'{"a": "\\udc00\\ud800"}', "/a", "whole characters"),
    (b'{"\\ud800": 1}', "", "whole characters"),
    (b'{"a": "b\\u0000"}', "/a", "NUL"),
    (b"[" * (DEEP + 1) + b"]" * (DEEP + 1), "", "inside one another"),
    (b"[" * 100_000, "", "inside one another"),
    (b'{"a":' * 100_000, "", "inside one another"),
    (b" " * (limits.BODY_BYTES + 1), "", "bytes"),
]


@pytest.mark.parametrize(("body", "pointer", "rule"), REFUSED, ids=range(len(REFUSED)))
def test_refused(body: bytes, pointer: str, rule: str) -> None:
    # NUL, or a number that nothing can hold, is right by the grammar and breaks a rule that a schema cannot state.
    with pytest.raises(
        UnusableJobError if rule in ("double", "digits", "characters", "NUL") else BadDocumentError
    ) as caught:
        read_json(body)
    assert [p.pointer for p in caught.value.problems] == [pointer]
    problem = caught.value.problems[0]
    assert rule in problem.rule
    assert problem.got
    assert problem.fix


TAKEN = [
    b"{}",
    b"[]",
    b'"x"',
    b" null ",
    b'{"a": "\\ud83d\\ude00 \\u00e9"}',
    b'{"a": [1, -2.5, 1e3, 0.1, true, false, null]}',
    b'{"a": {"a": 1}, "b": {"a": 1}}',
    b'{"a": "[[[[ \\" {{{{ \\\\"}',
    b"[" * DEEP + b"]" * DEEP,
    b'["' + b"[" * 1000 + b'"]',
    b'{"a": [123456789012345678, -999999999999999999]}',
]


@pytest.mark.parametrize("body", TAKEN, ids=range(len(TAKEN)))
def test_taken_as_the_standard_library_takes_it(body: bytes) -> None:
    assert read_json(body) == json.loads(body)


def test_every_refused_value_is_named() -> None:
    with pytest.raises(BadDocumentError) as caught:
        read_json(b'{"a": NaN, "b": [1e400], "c": "\\ud800", "d": {"e": 1, "e": 2}}')
    assert [p.pointer for p in caught.value.problems] == ["/a", "/c", "/d/e", "/b/0"]


def test_unterminated_text_is_looked_over_in_linear_time() -> None:
    body = b'{"a": ' + b"[" * 30 + b'"' + b'\\"' * 500_000
    with pytest.raises(BadDocumentError):
        read_json(body)


KEYS = st.text(st.sampled_from('ab[{"\\}]'), max_size=4)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**17), 10**17) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0") | st.sampled_from('[]{}\\",:')),
    lambda inner: st.lists(inner, max_size=8) | st.dictionaries(KEYS, inner),
    max_leaves=60,
)  # fmt: skip


@settings(max_examples=300, derandomize=True)
@given(VALUES, st.booleans())
def test_any_document_is_read_as_the_standard_library_reads_it(value: object, ascii_only: bool) -> None:
    body = json.dumps(value, ensure_ascii=ascii_only).encode()
    assert read_json(body) == json.loads(body)


@pytest.mark.parametrize("filler", ["x", "\\\\", '\\"', "[{", "é", "1e400", "9" * 30])
def test_depth_is_told_apart_from_brackets_in_texts(filler: str) -> None:
    for depth, fine in ((DEEP - 1, True), (DEEP, False)):
        body = (f'["{filler}",' * depth + f'["{filler}"]' + "]" * depth).encode()
        if fine:
            assert read_json(body) == json.loads(body)
        else:
            with pytest.raises(BadDocumentError, match="inside one another"):
                read_json(body)
