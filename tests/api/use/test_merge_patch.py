"""JSON Merge Patch against RFC 7396: the test cases of its Appendix A and the worked example of its section 3."""

import copy
import json

import pytest
from casewright.api.use.merge_patch import merged
from hypothesis import given
from hypothesis import strategies as st

# RFC 7396, Appendix A: original, patch, result, as printed there.
APPENDIX_A = [
    ('{"a":"b"}', '{"a":"c"}', '{"a":"c"}'),
    ('{"a":"b"}', '{"b":"c"}', '{"a":"b","b":"c"}'),
    ('{"a":"b"}', '{"a":null}', "{}"),
    ('{"a":"b","b":"c"}', '{"a":null}', '{"b":"c"}'),
    ('{"a":["b"]}', '{"a":"c"}', '{"a":"c"}'),
    ('{"a":"c"}', '{"a":["b"]}', '{"a":["b"]}'),
    ('{"a":{"b":"c"}}', '{"a":{"b":"d","c":null}}', '{"a":{"b":"d"}}'),
    ('{"a":[{"b":"c"}]}', '{"a":[1]}', '{"a":[1]}'),
    ('["a","b"]', '["c","d"]', '["c","d"]'),
    ('{"a":"b"}', '["c"]', '["c"]'),
    ('{"a":"foo"}', "null", "null"),
    ('{"a":"foo"}', '"bar"', '"bar"'),
    ('{"e":null}', '{"a":1}', '{"e":null,"a":1}'),
    ("[1,2]", '{"a":"b","c":null}', '{"a":"b"}'),
    ("{}", '{"a":{"bb":{"ccc":null}}}', '{"a":{"bb":{}}}'),
]


@pytest.mark.parametrize(("original", "patch", "result"), APPENDIX_A)
def test_appendix_a(original, patch, result):
    assert merged(json.loads(original), json.loads(patch)) == json.loads(result)


def test_the_example_of_section_3():
    original = {
        "title": "Goodbye!",
        "author": {"givenName": "John", "familyName": "Doe"},
        "tags": ["example", "sample"],
        "content": "This will be unchanged",
    }
    patch = {
        "title": "Hello!",
        "phoneNumber": "+01-123-456-7890",
        "author": {"familyName": None},
        "tags": ["example"],
    }
    assert merged(original, patch) == {
        "title": "Hello!",
        "author": {"givenName": "John"},
        "tags": ["example"],
        "content": "This will be unchanged",
        "phoneNumber": "+01-123-456-7890",
    }


def values(leaves):
    keys = st.text("abc", max_size=2)
    return st.recursive(
        leaves, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(keys, inner, max_size=3), max_leaves=12
    )


PLAIN = st.integers(0, 3) | st.text("xy", max_size=2) | st.booleans()
ANY = values(PLAIN | st.none())


def without_null_members(value):
    if isinstance(value, dict):
        return {key: without_null_members(inner) for key, inner in value.items() if inner is not None}
    return value


@given(ANY, ANY)
def test_a_patch_applied_twice_is_applied_once_and_nothing_given_is_changed(target, patch):
    kept = copy.deepcopy((target, patch))
    once = merged(target, patch)
    assert merged(once, patch) == once
    assert (target, patch) == kept


def patch_from(old, new):
    """Return a patch that turns `old` into `new`, by the RFC's own words: null for what is gone."""
    if not isinstance(new, dict) or not isinstance(old, dict):
        return new
    gone = dict.fromkeys(key for key in old if key not in new)
    return gone | {key: patch_from(old.get(key), new[key]) for key in new if key not in old or old[key] != new[key]}


@given(values(PLAIN), values(PLAIN))
def test_any_document_without_null_members_can_be_reached(old, new):
    assert merged(old, patch_from(old, new)) == new


@given(ANY)
def test_a_patch_on_nothing_leaves_what_it_says(patch):
    assert merged(None, patch) == (without_null_members(patch) if isinstance(patch, dict) else patch)
