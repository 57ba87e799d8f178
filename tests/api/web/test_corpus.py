"""Malformed and awkward documents: never a 5xx, never invalid JSON back, never a hang.

The corpus is made here from the grammar of RFC 8259 and the known ways to break it: every document is named by what
it is. Where the grammar decides, the expected verdict is the grammar's: `bad` must be refused as JSON (400 whose rule
is about JSON, text or numbers), `fine` must get as far as the job's schema. What RFC 8259 leaves open (duplicate
keys, huge numbers, deep nesting, lone surrogates, byte order marks) is `open`: this service refuses it by rule, with
422 where a number is right by the grammar and cannot be held, for no schema states that.
"""

import itertools
import json
import time
from typing import Any

import orjson
import pytest
from casewright.api.job import limits
from flask.testing import FlaskClient

SECONDS = 5.0
LEAST = 250


BROKEN = {
    "brace closes bracket": b'{"a":[1}}',
    "bracket closes brace": b'{"a":1]',
    "comma before the end of an object": b'{"a":1,}',
    "comma before the end of an array": b'{"a":[1,]}',
    "comma alone in an array": b"[,]",
    "comma alone in an object": b"{,}",
    "comma at the start of an array": b"[,1]",
    "two commas": b"[1,,2]",
    "no comma between numbers": b"[1 2]",
    "no comma between members": b'{"a":1 "b":2}',
    "colon for a comma": b'["a":1]',
    "comma for a colon": b'{"a",1}',
    "key without value": b'{"a"}',
    "key and colon without value": b'{"a":}',
    "value without key": b"{1}",
    "number as key": b'{1:"a"}',
    "word as key": b'{a:"b"}',
    "null as key": b"{null:1}",
    "single quotes": b"{'a':1}",
    "two documents": b"{}{}",
    "two documents on two lines": b"{}\n{}",
    "words after the document": b"{} end",
    "comma after the document": b"{},",
    "nothing": b"",
    "white space alone": b" \t\r\n",
    "comment in the manner of C": b"{/* a */}",
    "comment to the end of a line": b"{} // a",
    "comment with a hash": b"# a\n{}",
    "brackets turned round": b"]1[",
    "parentheses": b"(1)",
    "angle brackets": b"<a/>",
    "form feed as white space": b"\x0c{}",
    "vertical tab as white space": b"\x0b{}",
    "no-break space as white space": b"\xc2\xa0{}",
    "line separator as white space": b"\xe2\x80\xa8{}",
    "zero width space as white space": b"\xe2\x80\x8b{}",
    "record separator before": b"\x1e{}",
    "backslash outside a string": b"[\\n]",
    "semicolon after": b"{};",
    "equals for a colon": b'{"a"=1}',
    "percent encoded": b"%7B%7D",
    "form encoded": b"a=1&b=2",
    "YAML": b"a: 1\nb: 2\n",
    "HTML": b"<!doctype html><title>a</title>",
}
"""Documents of broken structure, by what is wrong with each."""


def structures() -> dict[str, bytes]:
    """Return documents broken in their brackets, commas and colons."""
    whole = b'{"a":[1,{"b":true}],"c":null}'
    documents = {f"cut after byte {i}": whole[:i] for i in range(len(whole))}
    documents |= {f"{name} left out": whole.replace(c, b"", 1) for name, c in (
        ("opening brace", b"{"), ("closing brace", b"}"), ("opening bracket", b"["), ("closing bracket", b"]"),
        ("colon", b":"), ("quote", b'"'), ("comma", b","),
    )}  # fmt: skip
    documents |= {f"{name} twice": whole.replace(c, c + c, 1) for name, c in (
        ("opening brace", b"{"), ("closing bracket", b"]"), ("colon", b":"), ("comma", b","), ("quote", b'"'),
    )}  # fmt: skip
    return documents | BROKEN


def literals() -> dict[str, bytes]:
    """Return words that are no JSON literals."""
    words = ["True", "False", "None", "NULL", "nul", "nulll", "tru", "truee", "fals", "undefined", "NaN", "-NaN",
             "Infinity", "-Infinity", "+Infinity", "inf", "-inf", "nan", "yes", "no", "on", "off", "TRUE", "nil",
             "void 0", "truefalse", "null null", "n\\u0075ll"]  # fmt: skip
    return {f"the word {word}": f'{{"a":{word}}}'.encode() for word in words}


def numbers() -> dict[str, bytes]:
    """Return numbers against the grammar: `-? (0 | [1-9][0-9]*) (. [0-9]+)? ([eE] [+-]? [0-9]+)?`."""
    words = ["+1", "01", "-01", "00", "1.", ".1", "-.1", "-", "+", "1e", "1e+", "1e-", "1E", "1.e1", "1.2.3", "1e1.5",
             "1e1e1", "--1", "1-", "1+1", "1_000", "1,000.0.0", "0x1F", "0b1", "0o7", "1f", "1.0d", "1n", "١٢", "１２",
             "½", "1/2", "1 000", "1e 5", "- 1", "1. 5", "0e", "-0.", "Infinity1", "1e1000000x", "$1", "1%", "1mm",
             "0.1.", "..1", "e5", "E5", ".e1", "-e1", "1ee5", "1e--5", "0-1", "9" * 30 + "."]  # fmt: skip
    return {f"the number {word[:14]}": f'{{"a":{word}}}'.encode() for word in words}


def strings() -> dict[str, bytes]:
    """Return strings against the grammar."""
    inner = {f"control character {c:02x}": bytes([c]) for c in range(0x20)}
    escapes = {f"escape {c}": f"\\{c}".encode() for c in "aAvx0158'eUNBFT \n"}
    hexes = {
        f"code {word}": f"\\{word}".encode()
        for word in ("u", "u1", "u12", "u123", "uZZZZ", "u 123", "u+123", "u12G4", "U0041", "u{41}", "x41")
    }
    texts = {name: b'{"a":"' + text + b'"}' for name, text in {**inner, **escapes, **hexes}.items()}
    texts |= {
        "quote not closed": b'{"a":"b}',
        "quote closed by a single quote": b'{"a":"b\'}',
        "quote escaped at the end": b'{"a":"b\\"}',
        "backslash at the end": b'{"a":"b\\',
        "line break in a string": b'{"a":"b\nc"}',
        "two strings side by side": b'{"a":"b" "c"}',
        "curly quotes": "{“a”:1}".encode(),
        "backquotes": b"{`a`:1}",
        "string without quotes": b'{"a":b}',
        "control character in a key": b'{"a\x01":1}',
    }
    return texts


def encodings() -> dict[str, bytes]:
    """Return bytes that are no UTF-8, or UTF-8 of another kind than JSON text."""
    text = '{"title":"é"}'
    documents = {
        f"in {name}": text.encode(name)
        for name in (
            "utf-16",
            "utf-16-le",
            "utf-16-be",
            "utf-32",
            "utf-32-le",
            "utf-32-be",
            "latin-1",
            "cp037",
        )
    }
    broken = {
        "lone continuation byte": b"\x80",
        "lead byte of two alone": b"\xc3",
        "lead byte of three alone": b"\xe2\x82",
        "lead byte of four alone": b"\xf0\x9f\x98",
        "overlong slash": b"\xc0\xaf",
        "overlong NUL": b"\xc0\x80",
        "overlong of three bytes": b"\xe0\x80\xaf",
        "a surrogate in UTF-8": b"\xed\xa0\x80",
        "a pair of surrogates in UTF-8": b"\xed\xa0\xbd\xed\xb8\x80",
        "beyond the last code point": b"\xf4\x90\x80\x80",
        "five byte form": b"\xf8\x88\x80\x80\x80",
        "byte FE": b"\xfe",
        "byte FF": b"\xff",
        "every byte": bytes(range(128, 256)),
    }
    documents |= {name: b'{"title":"' + piece + b'"}' for name, piece in broken.items()}
    documents |= {f"{name} outside strings": b"{" + piece + b"}" for name, piece in broken.items()}
    documents |= {
        "gzip": b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03",
        "a picture": b"\x89PNG\r\n\x1a\n",
        "NUL alone": b"\0",
        "NULs": b"\0" * 1000,
    }
    return documents


def opens() -> dict[str, bytes]:
    """Return what RFC 8259 leaves to the reader; here each is refused by rule."""
    deep = limits.JSON_DEPTH + 1
    documents = {
        "byte order mark alone": b"\xef\xbb\xbf",
        "two byte order marks": b"\xef\xbb\xbf\xef\xbb\xbf{}",
        "a key twice": b'{"units":"mm","units":"in"}',
        "a key twice with one value": b'{"units":"mm","units":"mm"}',
        "a key twice by an escape": b'{"units":"mm","unit\\u0073":"in"}',
        "a key twice far down": b'{"a":[{"b":{"c":1,"c":2}}]}',
        "the empty key twice": b'{"":1,"":2}',
        "an escaped NUL": b'{"title":"\\u0000"}',
        "an escaped NUL in a key": b'{"\\u0000":1}',
        "half a surrogate pair, high": b'{"title":"\\ud83d"}',
        "half a surrogate pair, low": b'{"title":"\\ude00"}',
        "surrogates in the wrong order": b'{"title":"\\ude00\\ud83d"}',
        "high surrogate and a letter": b'{"title":"\\ud83da"}',
        "half a surrogate pair in a key": b'{"\\ud800":1}',
        "a number past a double": b'{"a":1e400}',
        "a negative number past a double": b'{"a":-1e400}',
        "an exponent of many digits": b'{"a":1e999999999}',
        "an integer of 19 digits": b'{"a":1234567890123456789}',
        "an integer past 64 bits": b'{"a":18446744073709551616}',
        "an integer past 64 bits far down": b'{"a":[{"b":21974101637648707584}]}',
        "a negative integer past 64 bits": b'{"a":-9223372036854775809}',
        "an integer of 5000 digits": b'{"a":' + b"9" * 5000 + b"}",
        "an integer of 100000 digits": b'{"a":' + b"9" * 100_000 + b"}",
        "a decimal of 5000 digits": b'{"a":0.' + b"1" * 5000 + b"}",
        "a decimal with 5000 zeroes": b'{"a":0.' + b"0" * 5000 + b"1}",
    }
    for name, opened, closed in (("arrays", b"[", b"]"), ("objects", b'{"a":', b"}"), ("both", b'[{"a":', b"}]")):
        documents[f"{name} too deep"] = opened * deep + b"1" + closed * deep
        documents[f"{name} 100000 deep"] = opened * 100_000 + b"1" + closed * 100_000
        documents[f"{name} 100000 deep and not closed"] = opened * 100_000
    return documents


BAD = {
    f"{kind.__name__}: {name}": body
    for kind in (structures, literals, numbers, strings, encodings)
    for name, body in kind().items()
}
OPEN = opens()
FINE = {
    "a byte order mark, which RFC 8259 (8.1) lets a reader ignore": b'\xef\xbb\xbf{"units":"mm"}',
    "an empty object": b"{}",
    "an empty array": b"[]",
    "a number": b"1",
    "a string": b'"a"',
    "null": b"null",
    "white space round everything": b' \r\n\t{ \t"a" \n: \r[ 1 , 2 ] \t} \n',
    "every escape": b'{"a":"\\"\\\\\\/\\b\\f\\n\\r\\t\\u0041"}',
    "a surrogate pair": b'{"a":"\\ud83d\\ude00"}',
    "DEL": b'{"a":"\x7f"}',
    "numbers of every form": b"[0,-0,1,-1,1.5,-0.5,1e2,1E2,1e+2,1e-2,0e0,0.0e-0]",
    "integers of 18 digits": b"[123456789012345678,-999999999999999999]",
    "depth at its limit": b"[" * limits.JSON_DEPTH + b"]" * limits.JSON_DEPTH,
    "brackets in strings": b'{"a":"' + b"[{" * 5000 + b'"}',
    "the smallest double": b"[5e-324,2.2250738585072014e-308]",
    "below the smallest double": b"[1e-400]",
    "the empty key": b'{"":1}',
    "keys that differ in normal form": '{"\u00e9":1,"e\u0301":2}'.encode(),
}


UNHELD = ("integer", "number past", "decimal", "exponent", "escaped NUL")
"""Words of the names of what is right by the grammar and cannot be held."""


def refused(client: FlaskClient, path: str, body: bytes, mimetype: str = "application/json") -> dict[str, Any]:
    """Send a document and return the problem, having checked what must hold for every answer."""
    before = time.perf_counter()
    answer = client.post(path, data=body, content_type=mimetype)
    assert time.perf_counter() - before < SECONDS
    assert answer.status_code in (200, 400, 422), answer.data[:300]
    text = answer.data.decode("utf-8")  # strictly: half a surrogate would raise
    answered: dict[str, Any] = json.loads(text, parse_constant=lambda word: pytest.fail(f"{word} is not JSON"))
    assert orjson.loads(answer.data) == answered
    if answer.status_code != 200:
        assert answer.mimetype == "application/problem+json"
        assert answered["errors"]
    answered["answered"] = answer.status_code
    return answered


ABOUT_JSON = (
    "JSON",
    "UTF-8",
    "digits",
    "characters",
    "double",
    "inside one another",
    "once",
    "NUL",
    "surrogate",
    "whole characters",
)


def test_the_corpus_is_large_and_of_unlike_documents() -> None:
    assert len(BAD) + len(OPEN) >= LEAST
    assert len({*BAD.values(), *OPEN.values()}) >= LEAST


@pytest.mark.parametrize("name", BAD)
def test_bad(client: FlaskClient, name: str) -> None:
    # A second reader, of another make, agrees that it is no JSON.
    with pytest.raises(orjson.JSONDecodeError):
        orjson.loads(BAD[name])
    answered = refused(client, "/v1/plan", BAD[name])
    assert answered["answered"] == 400
    assert any(word in answered["errors"][0]["rule"] for word in ABOUT_JSON), answered["errors"][0]


@pytest.mark.parametrize("name", OPEN)
def test_left_open_by_the_standard(client: FlaskClient, name: str) -> None:
    answered = refused(client, "/v1/parts", OPEN[name])
    assert answered["answered"] == (422 if any(word in name for word in UNHELD) else 400)
    assert any(word in answered["errors"][0]["rule"] for word in ABOUT_JSON), answered["errors"][0]


@pytest.mark.parametrize("name", FINE)
def test_fine_as_json(client: FlaskClient, name: str) -> None:
    answered = refused(client, "/v1/plan", FINE[name])
    assert not any(word in answered["errors"][0]["rule"] for word in ("JSON text", "UTF-8", "once")), answered[
        "errors"
    ][0]


@pytest.mark.parametrize("path", ["/v1/compare", "/v1/booklet", "/v1/drawings/section", "/v1/stock", "/v1/mounting"])
def test_other_views_refuse_the_same(client: FlaskClient, path: str) -> None:
    for body in itertools.islice(itertools.chain(BAD.values(), OPEN.values()), 0, None, 7):
        assert refused(client, path, body)["answered"] in (400, 422)


# Awkward text in every place of the job that holds text.

AWKWARD = {
    "empty": "",
    "a space": " ",
    "long": "x" * 10_000,
    "very long": "é" * 300_000,
    "right to left": "מדף עליון",
    "direction marks": "\u202eabc\u202c\u2066d\u2069",
    "an emoji of several": "👩🏽‍🔧🏳️‍🌈",
    "combining marks": "Z" + "\u0335\u0321\u0489" * 30,
    "not a character": "\ufffe\uffff\U0010ffff",
    "zero width": "\u200b\u200c\u200d\ufeff",
    "line ends": "a\r\nb\nc\rd\u2028e\u2029f\x85",
    "tabs and controls": "a\tb\x01\x02\x1b[31m\x7f",
    "markup": '<script>alert("1")</script>&amp;]]><!--',
    "a formula": "=1+1",
    "a formula that calls": '=cmd|" /c calc"!A0',
    "other formula starts": "+1",
    "at sign": "@SUM(1)",
    "quotes": "'\"`´“”„",
    "backslashes": "\\\\..\\..\\",
    "a path": "../../../../etc/passwd",
    "a template": "{{7*7}}${7*7}#{7*7}%{7*7}",
    "a format": "%s%n%x{0}{0.__class__}",
    "SQL": "'; DROP TABLE parts;--",
    "a pointer": "~0~1/~",
    "a number": "1e400",
    "a long number": "9" * 400,
    "NaN": "NaN",
    "infinity": "-Infinity",
    "a fraction": "1/0",
    "a deep fraction": "1" * 50 + "/" + "3" * 50,
    "a length": "23 5/8",
    "a minus": "-0",
    "other digits": "١٢٣",
    "fullwidth": "６００",
    "superscript": "²",
    "null": "null",
    "true": "true",
    "prototype": "__proto__",
    "dunder": "__class__",
    "a word of the schema": "cabinets",
    "CJK": "合板の棚",
    "long s": "ſ",
    "dotless i": "İıI",
    "ligature": "ﬁ",
    "escapes of PDF": ") Tj ET Q %%EOF",
    "codes of DXF": "0\nSECTION\n2\nHEADER\n%%d%%u\\P{\\f}^J",
    "a header": "a\r\nSet-Cookie: b=c",
}  # fmt: skip


def places(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Return the path of every text in a document."""
    if isinstance(value, str):
        return [path]
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [place for key, inner in items for place in places(inner, (*path, key))]


def put(document: Any, path: tuple[Any, ...], text: str) -> Any:
    """Return a copy of a document with a text elsewhere."""
    document = json.loads(json.dumps(document))
    inner = document
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = text
    return document


def texts_of(example: dict[str, Any]) -> dict[str, Any]:
    """Return the example with every kind of text a job may hold, and less to compute."""
    job = {**example, "loose_parts": [{"id": "lid", "material": "case", "length": "10", "width": "5"}]}
    job["stock"] = {**example["stock"], "effort": 1}
    job["rates"] = {"currency": "EUR"}
    return job


def test_awkward_text_in_every_place(client: FlaskClient, example: dict[str, Any], full: bool) -> None:
    job = texts_of(example)
    every = places(job)
    assert len(every) > 50
    pairs = list(itertools.product(every, AWKWARD))
    planned = 0
    for path, name in pairs if full else pairs[:: len(AWKWARD) // 3]:
        body = json.dumps(put(job, path, AWKWARD[name])).encode()
        planned += refused(client, "/v1/parts", body)["answered"] == 200
    assert planned


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_titles_reach_every_paper(client: FlaskClient, job: dict[str, Any], name: str) -> None:
    job["title"] = AWKWARD[name][: limits.TITLE_LENGTH]
    body = json.dumps(job).encode()
    for path in ("plan", "parts?as=csv", "labels", "booklet", "workbook"):
        before = time.perf_counter()
        answer = client.post(f"/v1/{path}", data=body, content_type="application/json")
        assert time.perf_counter() - before < SECONDS
        assert answer.status_code in (200, 400, 422), (path, answer.data[:300])
        if answer.mimetype.endswith("json"):
            orjson.loads(answer.data)


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_tables(client: FlaskClient, name: str) -> None:
    text = AWKWARD[name]
    cell = '"' + text.replace('"', '""') + '"'
    for table in (
        f"id,width,job.units\n{cell},600,mm\n",
        f"id,{cell},job.units\na,600,mm\n",
        text,
        f"id,width,job.units\na,{cell},mm",
    ):
        refused(client, "/v1/parts", table.encode("utf-8"), "text/csv")


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_keys(client: FlaskClient, job: dict[str, Any], name: str) -> None:
    refused(client, "/v1/parts", json.dumps({**job, AWKWARD[name]: 1}).encode())
    refused(client, "/v1/parts", json.dumps({**job, "materials": {AWKWARD[name]: job["materials"]["mdf"]}}).encode())


@pytest.mark.parametrize("name", AWKWARD)
def test_awkward_queries_and_headers(client: FlaskClient, job: dict[str, Any], name: str) -> None:
    text = AWKWARD[name][:2000]
    for query in ({"as": text}, {text or "a": "1"}, {"page": text}, {"subject": text}, {"paper": text}):
        answer = client.post("/v1/drawings/part", json=job, query_string=query)
        assert answer.status_code in (200, 400, 422), answer.data[:300]
    for header in ("Accept", "If-None-Match", "Content-Type", "X-Request-Id", "Origin"):
        value = text.encode("utf-8").decode("latin-1").replace("\r", "").replace("\n", "")
        answer = client.post(
            "/v1/plan", data=json.dumps(job), headers={"Content-Type": "application/json", header: value}
        )
        assert answer.status_code in (200, 406, 412, 415), (header, answer.data[:300])
