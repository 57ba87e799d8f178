"""Strict fields: nothing is turned into another type, and every bound is inclusive."""

import pytest
from casewright.sdk.fields import Choice, Count, Flag, Flaw, Length, Number, OptionSchema, Text, units_in_force
from casewright.sdk.units import mm
from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError


def flaw(field, value):
    with pytest.raises(ValidationError) as caught:
        field.deserialize(value)
    message = caught.value.messages[0]
    assert isinstance(message, Flaw)
    assert message.rule
    assert message.fix
    return message


COUNT = Count(least=1, most=10)
NUMBER = Number(least=-2.0, most=2.0)
TEXT = Text(least=1, most=5)


@pytest.mark.parametrize(
    ("field", "value", "loaded"),
    [
        (COUNT, 1, 1),
        (COUNT, 10, 10),
        (COUNT, 3.0, 3),
        (NUMBER, -2, -2.0),
        (NUMBER, 2.0, 2.0),
        (Flag(), True, True),
        (Flag(), False, False),
        (TEXT, "bench", "bench"),
        (TEXT, "é", "é"),
        (TEXT, "\U0001f6b2", "\U0001f6b2"),
        (Choice("left", "right"), "left", "left"),
    ],
)
def test_takes(field, value, loaded):
    got = field.deserialize(value)
    assert got == loaded
    assert type(got) is type(loaded)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        *((COUNT, v) for v in ("3", "600", 2.7, 0, 11, True, False, [], {}, float("nan"), float("inf"), 10**400)),
        *((NUMBER, v) for v in ("1", True, 2.001, -2.001, float("nan"), float("-inf"), 10**400, -(10**400))),
        *((Flag(), v) for v in (1, 0, "true", "yes", [], 1.0)),
        *((TEXT, v) for v in ("", "longer", 5, True, [], "a\nb", "a\x00", "a\x7f", "a\x85", "a\ud800")),
        *((Choice("left", "right"), v) for v in ("Left", "up", 1, ["left"], {})),
    ],
)  # fmt: skip
def test_refuses(field, value):
    flaw(field, value)


def test_null_is_refused_unless_it_is_asked_for():
    for field in (Count(), Number(), Flag(), Text(), Choice("a"), Length()):
        with pytest.raises(ValidationError):
            field.deserialize(None)
    assert Length(allow_none=True).deserialize(None) is None


def test_text_matches_its_pattern_whole():
    key = Text(pattern=r"^[a-z]+$")
    assert key.deserialize("saw") == "saw"
    flaw(key, "Saw")
    flaw(key, "saw\n")


def test_lengths_read_by_the_units_in_force():
    field = Length()
    with units_in_force("in"):
        assert field.deserialize(1) == 25_400_000
        with units_in_force("mm"):
            assert field.deserialize(1) == 1_000_000
        assert field.deserialize("1 mm") == 1_000_000
        assert field.deserialize(1) == 25_400_000


def test_units_are_restored_after_an_error():
    with pytest.raises(RuntimeError), units_in_force("in"):
        raise RuntimeError
    assert Length().deserialize(1) == 1_000_000


def test_length_bounds_are_inclusive():
    field = Length(least=mm(1), most=mm(2))
    assert field.deserialize(1) == mm(1)
    assert field.deserialize("2.0") == mm(2)
    for value in ("0.999999", "2.000001", 0, 3):
        assert flaw(field, value).beyond_schema


def test_bounds_are_written_so_that_what_stands_there_is_within_them():
    # 50 mm are 1.96850394 in, 6 m are 236.2204724 in.
    field = Length(least=mm(50), most=mm(6000))
    with units_in_force("in"):
        assert flaw(field, 1).rule == "a length from 1.9686 to 236.2204 in"
        assert flaw(field, 10**9).rule == flaw(field, 1).rule
        assert mm(50) <= field.deserialize("1.9686") < field.deserialize("236.2204") <= mm(6000)


def test_a_minus_is_what_a_schema_can_rule_out():
    assert not flaw(Length(), -1).beyond_schema
    assert not flaw(Length(), "-0").beyond_schema
    assert Length(least=-mm(5)).deserialize("-5") == -mm(5)
    assert flaw(Length(), "1/0").beyond_schema
    assert not flaw(Length(), "wide").beyond_schema


def test_unknown_options_are_refused():
    class Options(OptionSchema):
        depth = Length(load_default=None)

    assert Options().load({}) == {"depth": None}
    with pytest.raises(ValidationError, match="deep"):
        Options().load({"deep": 1})


@given(st.text(max_size=20))
def test_text_that_is_taken_is_bounded_and_can_be_written_as_utf8(value):
    try:
        kept = Text(least=1, most=10).deserialize(value)
    except ValidationError:
        return
    assert kept == value
    assert 1 <= len(kept) <= 10
    assert kept.encode("utf-8")
    assert kept.isprintable() or " " in kept or any(ord(c) > 0x9F for c in kept)


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=2), inner, max_size=2),
    max_leaves=4,
)


@given(anything)
def test_any_json_is_either_taken_or_refused_with_a_flaw(value):
    for field in (COUNT, NUMBER, TEXT, Flag(), Choice("a"), Length()):
        try:
            field.deserialize(value)
        except ValidationError as error:
            flaws = error.messages
        else:
            continue
        assert all(isinstance(f, (Flaw, str)) for f in flaws)
