"""The register of sources: stable codes, honest provenance, and numbers that come from each."""

import re
from pathlib import Path
from typing import get_args

import casewright.api
import casewright.plugins
import casewright.sdk
import pytest
from casewright.sdk.sources import SOURCES, Provenance, cite, source


def test_codes_are_kebab_case_and_keyed_by_themselves():
    assert len(SOURCES) > 50
    for code, entry in SOURCES.items():
        assert entry.code == code
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", code)
        assert entry.title
        assert entry.provenance in get_args(Provenance)


def test_each_is_named_where_its_numbers_are():
    roots = [
        Path(root) for package in (casewright.sdk, casewright.plugins, casewright.api) for root in package.__path__
    ]
    modules = {path for root in roots for path in root.rglob("*.py")} - {Path(casewright.sdk.sources.__file__)}
    words = {
        word for path in modules for word in re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)+|gravity|statics", path.read_text())
    }
    assert sorted(set(SOURCES) - words) == []


def test_common_practice_says_so():
    assert source("common-practice").provenance == "common practice"
    assert "common practice" in cite("practice-32-mm")


def test_memory_is_marked_in_the_citation():
    assert cite("awc-tr-12").endswith("(from memory)")
    assert "from memory" not in cite("nds-2018-12-2-2")


def test_unknown_code_is_named():
    with pytest.raises(KeyError, match="no-such-code"):
        source("no-such-code")


def test_the_register_cannot_be_changed():
    with pytest.raises(TypeError):
        SOURCES["x"] = source("statics")  # type: ignore[index]


def test_proof_load_is_marked_as_no_service_load():
    assert "not a service load" in source("kcma-a161-1-5-2").note
