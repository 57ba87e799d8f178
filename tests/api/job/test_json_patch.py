"""JSON Patch against RFC 6902: the examples of its Appendix A, the rules of its section 4, and its bounds here."""

import copy
import json

import pytest
from casewright.api.job import limits
from casewright.api.job.json_patch import equal, patched, read_patch
from casewright.api.job.problems import Findings
from casewright.sdk.errors import UnusableJobError
from hypothesis import given
from hypothesis import strategies as st


def applied(document, patch):
    findings = Findings()
    operations = read_patch(patch, "", findings)
    findings.settle()
    return patched(document, operations)


# RFC 6902, Appendix A: the examples that succeed, as printed there (A.1 to A.16).
APPENDIX_A = [
    ('{"foo":"bar"}', '[{"op":"add","path":"/baz","value":"qux"}]', '{"baz":"qux","foo":"bar"}'),
    ('{"foo":["bar","baz"]}', '[{"op":"add","path":"/foo/1","value":"qux"}]', '{"foo":["bar","qux","baz"]}'),
    ('{"baz":"qux","foo":"bar"}', '[{"op":"remove","path":"/baz"}]', '{"foo":"bar"}'),
    ('{"foo":["bar","qux","baz"]}', '[{"op":"remove","path":"/foo/1"}]', '{"foo":["bar","baz"]}'),
    ('{"baz":"qux","foo":"bar"}', '[{"op":"replace","path":"/baz","value":"boo"}]', '{"baz":"boo","foo":"bar"}'),
    (
        '{"foo":{"bar":"baz","waldo":"fred"},"qux":{"corge":"grault"}}',
        '[{"op":"move","from":"/foo/waldo","path":"/qux/thud"}]',
        '{"foo":{"bar":"baz"},"qux":{"corge":"grault","thud":"fred"}}',
    ),
    (
        '{"foo":["all","grass","cows","eat"]}',
        '[{"op":"move","from":"/foo/1","path":"/foo/3"}]',
        '{"foo":["all","cows","eat","grass"]}',
    ),
    (
        '{"baz":"qux","foo":["a",2,"c"]}',
        '[{"op":"test","path":"/baz","value":"qux"},{"op":"test","path":"/foo/1","value":2}]',
        '{"baz":"qux","foo":["a",2,"c"]}',
    ),
    (
        '{"foo":"bar"}',
        '[{"op":"add","path":"/child","value":{"grandchild":{}}}]',
        '{"foo":"bar","child":{"grandchild":{}}}',
    ),
    ('{"foo":"bar"}', '[{"op":"add","path":"/baz","value":"qux","xyz":123}]', '{"foo":"bar","baz":"qux"}'),
    ('{"/":9,"~1":10}', '[{"op":"test","path":"/~01","value":10}]', '{"/":9,"~1":10}'),
    ('{"foo":["bar"]}', '[{"op":"add","path":"/foo/-","value":["abc","def"]}]', '{"foo":["bar",["abc","def"]]}'),
]
# And those that must fail: A.9, A.12, A.15.
REFUSED = [
    ('{"baz":"qux"}', '[{"op":"test","path":"/baz","value":"bar"}]', "/0/value"),
    ('{"foo":"bar"}', '[{"op":"add","path":"/baz/bat","value":"qux"}]', "/0/path"),
    ('{"/":9,"~1":10}', '[{"op":"test","path":"/~01","value":"10"}]', "/0/value"),
    # Section 4: a target that is not there, an index past the end or with a leading zero, a move into itself.
    ('{"a":1}', '[{"op":"remove","path":"/b"}]', "/0/path"),
    ('{"a":1}', '[{"op":"replace","path":"/b","value":1}]', "/0/path"),
    ('{"a":[1]}', '[{"op":"add","path":"/a/2","value":1}]', "/0/path"),
    ('{"a":[1,2]}', '[{"op":"replace","path":"/a/01","value":1}]', "/0/path"),
    ('{"a":[1]}', '[{"op":"remove","path":"/a/-"}]', "/0/path"),
    ('{"a":{"b":1}}', '[{"op":"move","from":"/a","path":"/a/b"}]', "/0/path"),
    ('{"a":1}', '[{"op":"add","path":"/b","value":1},{"op":"copy","from":"/c","path":"/d"}]', "/1/from"),
    ('{"a":1}', '[{"op":"add","path":"/a/b","value":1}]', "/0/path"),
]


@pytest.mark.parametrize(("original", "patch", "result"), APPENDIX_A)
def test_appendix_a(original, patch, result):
    document = json.loads(original)
    kept = copy.deepcopy(document)
    assert applied(document, json.loads(patch)) == json.loads(result)
    assert document == kept


@pytest.mark.parametrize(("original", "patch", "pointer"), REFUSED)
def test_what_cannot_be_applied_names_its_place(original, patch, pointer):
    with pytest.raises(UnusableJobError) as caught:
        applied(json.loads(original), json.loads(patch))
    (problem,) = caught.value.problems
    assert problem.pointer == pointer
    assert problem.fix


@pytest.mark.parametrize(
    ("patch", "pointers"),
    [
        ([1], ["/p/0"]),
        ([{}], ["/p/0/op"]),
        ([{"op": "ad", "path": ""}], ["/p/0/op"]),
        ([{"op": "add", "path": "/a"}], ["/p/0/value"]),
        ([{"op": "move", "path": "/a"}], ["/p/0/from"]),
        ([{"op": "copy", "from": "/a"}, {"op": "remove", "path": 1}], ["/p/0/path", "/p/1/path"]),
        ([{"op": "remove", "path": "a"}], ["/p/0/path"]),
        ([{"op": "remove", "path": "/a~2"}], ["/p/0/path"]),
        ([{"op": "remove", "path": "/a"}] * (limits.PATCH_OPERATIONS + 1), ["/p"]),
    ],
)
def test_a_fault_of_form_names_its_place(patch, pointers):
    findings = Findings()
    read_patch(patch, "/p", findings)
    assert [problem.pointer for problem in findings.schema] == pointers


# RFC 6902, section 4.6: numbers are equal by value; literals only to themselves.
@pytest.mark.parametrize(
    ("a", "b", "same"),
    [(1, 1.0, True), (True, 1, False), (0, False, False), (None, 0, False), ([1, {"a": 2}], [1.0, {"a": 2}], True),
     ({"a": 1, "b": 2}, {"b": 2, "a": 1}, True), ([1, 2], [2, 1], False), ("1", 1, False)],
)  # fmt: skip
def test_equality(a, b, same):
    assert equal(a, b) is same


def test_copies_of_copies_are_bounded():
    doubling = [{"op": "copy", "from": "", "path": f"/c{i}"} for i in range(30)]
    with pytest.raises(UnusableJobError, match=r"patch_values|json_depth"):
        applied({"a": [1] * 10}, doubling)
    wide = [{"op": "copy", "from": "/a", "path": f"/c{i}"} for i in range(limits.PATCH_OPERATIONS)]
    with pytest.raises(UnusableJobError, match="patch_values"):
        applied({"a": [1] * 1000}, wide)


def test_a_document_does_not_become_deeper_than_one_that_is_read():
    sunk = [{"op": "add", "path": "/a" * (i + 1), "value": {}} for i in range(limits.JSON_DEPTH + 1)]
    with pytest.raises(UnusableJobError, match="json_depth"):
        applied({}, sunk)


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-9, 9) | st.text(max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=8,
)


@given(VALUES, VALUES)
def test_a_whole_document_is_replaced_and_tested(before, after):
    assert applied(before, [{"op": "replace", "path": "", "value": after}]) == after
    assert applied(before, [{"op": "test", "path": "", "value": before}]) == before


@given(st.dictionaries(st.text(max_size=4), VALUES, min_size=1, max_size=4), VALUES, st.data())
def test_what_is_added_is_there_and_what_is_removed_is_gone(document, value, data):
    key = data.draw(st.sampled_from(sorted(document)) | st.text(max_size=4))
    path = "/" + key.replace("~", "~0").replace("/", "~1")
    added = applied(
        document, [{"op": "add", "path": path, "value": value}, {"op": "test", "path": path, "value": value}]
    )
    assert added == {**document, key: value}
    assert applied(added, [{"op": "remove", "path": path}]) == {k: v for k, v in document.items() if k != key}
