"""Nothing is turned into another type on its way in: shown directly, since a green fuzzing run does not prove it."""

from typing import Any

import jsonschema
import pytest
from casewright.api.job.fields import TAPE_WORDS, Key, Shelves, Tape
from casewright.api.job.option_schema import option_schema
from casewright.sdk.fields import Choice, Count, Flag, Length, Number, OptionSchema, Text, units_in_force
from casewright.sdk.units import INCH, MM, parse_length
from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

COUNT, NUMBER, FLAG, TEXT, WORD = Count(least=1, most=9), Number(most=10), Flag(), Text(most=5), Choice("a", "b")

LOOSE: list[tuple[Any, Any]] = [
    (COUNT, "2"), (COUNT, 2.5), (COUNT, True), (COUNT, 0), (COUNT, 10), (COUNT, None), (COUNT, [2]), (COUNT, "2.0"),
    (NUMBER, "2"), (NUMBER, True), (NUMBER, float("nan")), (NUMBER, float("inf")), (NUMBER, -1), (NUMBER, {}),
    (FLAG, 1), (FLAG, 0), (FLAG, "true"), (FLAG, "yes"), (FLAG, None),
    (TEXT, 5), (TEXT, "123456"), (TEXT, "a\tb"), (TEXT, "a\x7f"), (TEXT, "\ud800"), (TEXT, ["a"]), (TEXT, None),
    (WORD, "A"), (WORD, "a "), (WORD, 1), (WORD, None),
    (Key(), ""), (Key(), "a b"), (Key(), "-a"), (Key(), "a\n"), (Key(), "é"), (Key(), "x" * 41),
    (Tape(), "1/3"), (Tape(), 0.3), (Tape(), True), (Tape(), "0.5"), (Tape(), 2),
    (Shelves(), "2"), (Shelves(), 2.5), (Shelves(), -1), (Shelves(), True), (Shelves(), [[1]]), (Shelves(), [True]),
    (Length(), True), (Length(), None), (Length(), []), (Length(), ""), (Length(), "1 2"), (Length(), "1/2/3"),
    (Length(), "12 metres"), (Length(), "1e3"), (Length(), "NaN"), (Length(), "٣"), (Length(), "1,5"),
    (Length(), "0x10"), (Length(), "3 / 4 / 5"), (Length(), "1_000"), (Length(), "9" * 41),
]  # fmt: skip


@pytest.mark.parametrize(("field", "value"), LOOSE, ids=range(len(LOOSE)))
def test_refused(field: Any, value: Any) -> None:
    with pytest.raises(ValidationError):
        field.deserialize(value)


@pytest.mark.parametrize(
    ("field", "value", "loaded"),
    [(COUNT, 3, 3), (COUNT, 3.0, 3), (NUMBER, 3, 3.0), (NUMBER, 0, 0.0), (FLAG, True, True), (TEXT, "é", "é")],
)
def test_taken(field: Any, value: Any, loaded: Any) -> None:
    got = field.deserialize(value)
    assert (got, type(got)) == (loaded, type(loaded))


@pytest.mark.parametrize(
    ("text", "nm"),
    # Arithmetic by hand from 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
    [
        (23.625, 600_075_000),
        ("23 5/8", 600_075_000),
        ("23-5/8", 600_075_000),
        ("600 mm", 600_000_000),
        ("3/4 in", 19_050_000),
        ('3/4"', 19_050_000),
        ("2 ft", 609_600_000),
        (0.333333333, 8_466_667),
        (1, 25_400_000),
        (".5", 12_700_000),
        (" 1 / 2 ", 12_700_000),
    ],
)
def test_lengths_in_inches(text: Any, nm: int) -> None:
    with units_in_force("in"):
        assert Length().deserialize(text) == nm


VALUES = st.one_of(
    st.integers(-(10**6), 10**6),
    st.floats(-(10**6), 10**6),
    st.text("0123456789/ .-+minft'\"", max_size=12),
    st.booleans(),
    st.none(),
)
FIELDS: list[Any] = [
    Length(least=MM),
    Length(least=-INCH),
    Count(least=1, most=9),
    Number(most=99),
    Text(most=5),
    Tape(),
    Shelves(),
]


@pytest.mark.parametrize("field", FIELDS, ids=lambda f: f"{type(f).__name__}{getattr(f, 'least', '')}")
@given(value=VALUES)
def test_the_published_schema_says_what_is_read(field: Any, value: Any) -> None:
    """A value is refused as a bad document exactly where the published JSON Schema (jsonschema) refuses it."""
    published = option_schema(OptionSchema.from_dict({"one": field}))
    allowed = jsonschema.Draft202012Validator(published).is_valid({"one": value})
    with units_in_force("in"):
        try:
            field.deserialize(value)
            taken, beyond = True, False
        except ValidationError as error:
            flaws = [
                f
                for m in ([error.messages] if isinstance(error.messages, list) else error.messages.values())
                for f in m
            ]
            taken, beyond = False, all(getattr(f, "beyond_schema", False) for f in flaws)
    assert allowed == (taken or beyond)


def test_every_tape_division_is_a_length() -> None:
    assert all(parse_length(word, "in") > 0 for word in TAPE_WORDS)
