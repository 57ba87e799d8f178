"""Scripts that join, stack or run from right to left: what Unicode's standard says of them, seen in the glyphs."""

import pytest
from casewright.api.papers.shaping import SCRIPTS, Run, as_read, has, is_shaped, runs, shape
from casewright.api.papers.text import MISSING, cannot_draw, clean, width


def glyphs(text: str, font: str, leftward: bool = False) -> list[tuple[object, ...]]:
    return [glyph.outline for glyph in shape(Run(text, font, leftward)).glyphs]


def test_a_line_is_ordered_and_its_brackets_turn() -> None:
    # UAX 9, rules L2 and L4: letters of a right-to-left run are reversed, numbers keep their order, brackets mirror.
    assert as_read("ab אבג (דה) 12 ו") == "ab ו 12 (הד) גבא"
    # With no letter that runs right the line itself runs left (P2 and P3).
    assert as_read("אב: 12") == "12 :בא"


def test_arabic_letters_join_and_ligate() -> None:
    # The Unicode Standard, 9.2: beh takes another form at the beginning, in the middle and at the end of a word; lam
    # and alef make one glyph; a zero-width non-joiner parts letters.
    alone = glyphs("ب", "arabic", True)[0]
    end, middle, beginning = glyphs("ببب", "arabic", True)
    assert len({alone, end, middle, beginning}) == 4
    assert len(glyphs("لا", "arabic", True)) == 1
    assert glyphs("ب\u200cب", "arabic", True)[0] == alone


def test_vowels_of_devanagari_go_before_their_cluster() -> None:
    # The Unicode Standard, 12.1: the vowel sign i is written before the consonant it follows; ka, virama and ssa make
    # one conjunct.
    vowel, consonant = glyphs("कि", "devanagari")
    assert consonant == glyphs("क", "devanagari")[0]
    assert vowel != consonant
    assert len(glyphs("क्ष", "devanagari")) == 1


@pytest.mark.parametrize(
    ("font", "word"),
    [
        ("hebrew", "ארון"), ("arabic", "ورشة"), ("devanagari", "साइकिल"), ("bengali", "মেরামত"),
        ("gurmukhi", "ਮੁਰੰਮਤ"), ("gujarati", "સાયકલ"), ("oriya", "ସାଇକେଲ"), ("tamil", "மிதிவண்டி"),
        ("telugu", "సైకిల్"), ("kannada", "ಸೈಕಲ್"), ("malayalam", "സൈക്കിൾ"), ("sinhala", "බයිසිකල්"),
        ("thai", "จักรยาน"),
    ],
)  # fmt: skip
def test_every_script_has_its_font(font: str, word: str) -> None:
    assert font in SCRIPTS
    assert is_shaped(word)
    assert not cannot_draw(word)
    assert [run.font for run in runs(f"a {word}")] == ["", font]
    assert all(has(font, char) for char in word)
    assert width(word, 2.5) > 0


def test_a_character_without_a_glyph_is_a_box_and_joiners_stay_where_they_join() -> None:
    assert cannot_draw("\u0870")  # Arabic, added in Unicode 14, after these fonts
    assert clean("می\u200cخواهم") == "می\u200cخواهم"
    assert clean("a\u200cb") == "ab"
    assert MISSING == "□"
