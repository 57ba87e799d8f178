"""What a check is about, in words."""

import pytest
from casewright.api.papers.pointer_words import about


@pytest.mark.parametrize(
    ("subject", "words"),
    [
        ("tools/door-1", "tools/door-1"),
        ("", "the job"),
        ("/materials/infill/thickness", "material infill, thickness"),
        ("/wall/cabinets_at/tools/1", "tools 2 on the wall"),
        ("/wall/cabinets_at/spares/0", "spares on the wall"),
        ("/cabinets/1/ends/left", "spares, ends left"),
        ("/cabinets/1", "spares"),
        ("/stock/sheets/0/id", "stock sheets 1 id"),
        ("/materials/a~1b/thickness", "material a/b, thickness"),  # RFC 6901, 4: ~1 stands for a stroke
    ],
)
def test_a_pointer_reads_as_words(subject: str, words: str) -> None:
    assert about(subject, {"tools": 2, "spares": 1}) == words
