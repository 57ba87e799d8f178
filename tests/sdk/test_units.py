"""Lengths: what is read, what is refused, and that both systems are exact in nanometres.

The inch is 25.4 mm exactly (international yard and pound agreement of 1959); pint (general-purpose unit library)
is the reference for every conversion.
"""

import re
from fractions import Fraction

import pint
import pytest
from casewright.sdk.units import (
    DEFAULT_TAPE,
    GREATEST,
    INCH,
    LENGTH_PATTERN,
    LONGEST_TEXT,
    MM,
    TAPES,
    LengthError,
    TooLongError,
    bit_text,
    inches,
    mm,
    on_tape,
    parse_length,
    tape_text,
    to_number,
)
from hypothesis import given, seed
from hypothesis import strategies as st

UNITS = pint.UnitRegistry(non_int_type=Fraction)
lengths = st.integers(-GREATEST // 2, GREATEST // 2)
systems = st.sampled_from(["in", "mm"])

# Worked by hand: 1 in = 25 400 000 nm, so 1/64 in = 396 875 nm and 23 5/8 in = 600 075 000 nm.
GOOD = [
    (23.625, "in", 600_075_000),
    ("23.625", "in", 600_075_000),
    ("23 5/8", "in", 600_075_000),
    ("23-5/8", "in", 600_075_000),
    ("23  5 / 8", "in", 600_075_000),
    ("  23 5/8 in ", "mm", 600_075_000),
    ('23 5/8"', "mm", 600_075_000),
    ("600 mm", "in", 600_000_000),
    ("60cm", "in", 600_000_000),
    ("0.6 m", "in", 600_000_000),
    ("2 ft", "mm", 609_600_000),
    ("2'", "mm", 609_600_000),
    ("3/4", "in", 19_050_000),
    ("3/4 in", "mm", 19_050_000),
    ("6/8", "in", 19_050_000),
    ("1/64", "in", 396_875),
    ("5/4", "in", 31_750_000),
    ("0", "mm", 0),
    (0, "mm", 0),
    (-0.0, "mm", 0),
    (".5", "in", 12_700_000),
    ("5.", "mm", 5_000_000),
    ("-1 1/2", "in", -38_100_000),
    ("- 1 1/2", "in", -38_100_000),
    ("+1 1/2", "in", 38_100_000),
    ("-3-1/8", "in", -79_375_000),
    (600, "mm", 600_000_000),
    (0.333333333, "in", 8_466_667),  # 8 466 666.6582 taken to the nearest nanometre
    (1e-7, "mm", 0),
    (0.1, "mm", 100_000),
    ("0.0000005", "mm", 0),  # half a nanometre goes to the even one
    ("0.0000015", "mm", 2),
    (1e5, "mm", GREATEST),
    ("1/3", "in", 8_466_667),
    ("\t12\n", "mm", 12_000_000),
]

BAD = [
    "", " ", "abc", "1/0", "0/0", "1 2", "1 2 3/4", "1/2/3", "--1", "1e3", "1,5", "½", "1 ½", "١٢", "１２", "12 inches",
    "12 km", "5' 6\"", "mm", "/2", "1/", "1.5/2", "1.2.3", "NaN", "inf", "Infinity", "0x10", "1_000", "12 in in",
    None, True, False, [], {}, [1], b"12", float("nan"), float("inf"), float("-inf"), 10**400, 100_000.001, "100001",
    "9" * 10, "1" * 41, "1\x00", "1 /\u00a02", "7\u20092",
]  # fmt: skip


@pytest.mark.parametrize(("value", "units", "nm"), GOOD)
def test_reads(value, units, nm):
    assert parse_length(value, units) == nm


@pytest.mark.parametrize("value", BAD)
@pytest.mark.parametrize("units", ["in", "mm"])
def test_refuses(value, units):
    if value == 100_000.001 or value == "100001":
        units = "mm"
    with pytest.raises(LengthError) as caught:
        parse_length(value, units)
    assert caught.value.why
    fix = "Give one of at most" if isinstance(caught.value, TooLongError) else "Give a number or text"
    assert caught.value.fix.startswith(fix)


def test_tells_a_length_that_cannot_be_used_from_what_is_no_length():
    for value in ("1/0", "100001 mm", 10**9):
        with pytest.raises(LengthError) as caught:
            parse_length(value, "mm")
        assert caught.value.reads
    with pytest.raises(LengthError) as caught:
        parse_length("wide", "mm")
    assert not caught.value.reads


@given(st.text(alphabet="0123456789/.-+ \t\nmcinft\"'½e", max_size=12), systems)
def test_the_published_pattern_states_the_same_grammar(text, units):
    try:
        parse_length(text, units)
        reads = True
    except LengthError as error:
        reads = error.reads
    assert reads == bool(re.search(LENGTH_PATTERN, text))


def test_text_longer_than_the_limit_is_refused():
    assert parse_length("1" + " " * (LONGEST_TEXT - 1), "mm") == MM
    with pytest.raises(LengthError):
        parse_length("1" + " " * LONGEST_TEXT, "mm")


@seed(1)
@given(lengths, systems)
def test_a_number_sent_back_is_the_same_length(nm, units):
    assert parse_length(to_number(nm, units), units) == nm


@given(st.integers(-(10**9), 10**9), st.sampled_from([1, 2, 4, 8, 16, 32, 64, 128]))
def test_tape_text_of_a_tape_length_reads_back_exactly(steps, n):
    steps %= 64 * 1000 * n // 64
    nm, rest = divmod(steps * INCH, n)
    if rest == 0:
        assert parse_length(tape_text(nm, "in", Fraction(1, n)), "mm") == nm


@given(lengths, st.sampled_from(TAPES["mm"]))
def test_metric_tape_text_is_within_half_a_division(nm, tape):
    read = parse_length(tape_text(nm, "mm", tape), "in")
    assert abs(read - nm) * 2 <= tape * MM


@given(lengths, st.sampled_from(TAPES["in"]))
def test_inch_tape_text_is_within_half_a_division(nm, tape):
    read = parse_length(tape_text(nm, "in", tape), "mm")
    assert abs(read - nm) * 2 <= tape * INCH + 2  # 1/128 in is not a whole number of nm


@given(lengths, systems)
def test_on_tape_says_whether_rounding_moves_a_length(nm, units):
    tape = DEFAULT_TAPE[units]
    assert on_tape(nm, units, tape) == (parse_length(tape_text(nm, units, tape), units) == nm)


# Rounded by hand; halves go to the even division.
TAPE = [
    (inches("23 5/8"), "in", 64, "23 5/8 in"),
    (inches("3/4"), "in", 64, "3/4 in"),
    (0, "in", 64, "0 in"),
    (inches("2"), "in", 64, "2 in"),
    (inches("0.709"), "in", 64, "45/64 in"),  # 0.709 × 64 = 45.376
    (inches("0.709"), "in", 16, "11/16 in"),  # 0.709 × 16 = 11.344
    (inches("1/2"), "in", 1, "0 in"),
    (inches("1 1/2"), "in", 1, "2 in"),
    (inches("2 1/2"), "in", 1, "2 in"),
    (inches("-1/2"), "in", 1, "0 in"),
    (inches("-1 1/2"), "in", 1, "-2 in"),
    (inches("-23 5/8"), "in", 64, "-23 5/8 in"),
    (inches("-1/4"), "in", 64, "-1/4 in"),
    (inches("0.999"), "in", 64, "1 in"),
    (mm(600), "mm", 10, "600.0 mm"),
    (mm("17.05"), "mm", 10, "17.0 mm"),  # 170.5 divisions: the even one
    (mm("17.15"), "mm", 10, "17.2 mm"),
    (mm("-17.15"), "mm", 10, "-17.2 mm"),
    (mm("-0.01"), "mm", 10, "0.0 mm"),
    (mm("17.3"), "mm", 1, "17 mm"),
    (mm("17.3"), "mm", 2, "17.5 mm"),
    (mm("17.345"), "mm", 100, "17.34 mm"),
]


@pytest.mark.parametrize(("nm", "units", "n", "text"), TAPE)
def test_tape_text(nm, units, n, text):
    assert tape_text(nm, units, Fraction(1, n)) == text


@given(st.fractions(min_value=0, max_value=1000, max_denominator=128), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_conversions_against_pint(size, unit):
    wanted = (size * UNITS(unit)).to("nanometer").magnitude
    if wanted > GREATEST:
        return
    text = f"{size.numerator}/{size.denominator} {unit}"
    assert parse_length(text, "mm") == parse_length(text, "in") == round(wanted)


def test_both_systems_are_exact():
    assert UNITS("1 inch").to("nanometer").magnitude == INCH
    assert UNITS("1 millimeter").to("nanometer").magnitude == MM
    assert 64 * parse_length("1/64", "in") == INCH
    assert 1000 * parse_length("0.001", "mm") == MM
    assert sum(parse_length(f"{n}/64", "in") for n in range(1, 64)) == 63 * INCH // 2  # 1+…+63 = 2016 = 31.5 × 64


def test_constants_are_read_as_lengths_are():
    assert inches("-1 1/2") == -38_100_000
    assert inches(3) == mm("76.2") == 76_200_000
    with pytest.raises(LengthError):
        inches("wide")


def test_numbers_are_whole_where_they_can_be():
    assert to_number(INCH * 3, "in") == 3
    assert isinstance(to_number(INCH * 3, "in"), int)
    assert to_number(parse_length("23 5/8", "in"), "in") == 23.625


@pytest.mark.parametrize(("units", "words"), [("mm", "beyond 100 m"), ("in", "beyond 3937.008 in")])
def test_a_length_too_great_is_refused_in_the_units_of_the_job(units, words):
    """100 m over 25.4 mm is 3937.00787… in."""
    with pytest.raises(LengthError, match=words):
        parse_length(10**7, units)


@pytest.mark.parametrize(
    ("nm", "units", "text"),
    # Bits are sold by the half millimetre and by fractions of an inch: 35 mm is 1.378 in, 12.7 mm is 1/2 in.
    [
        (mm(5), "in", "5 mm"),
        (mm(35), "in", "35 mm"),
        (mm("12.7"), "in", "1/2 in"),
        (mm("3.3"), "in", "1/8 in"),
        (mm(5), "mm", "5.0 mm"),
    ],
)
def test_a_bit_is_called_by_the_size_it_is_sold_in(nm, units, text):
    assert bit_text(nm, units, Fraction(1, 64 if units == "in" else 2)) == text
