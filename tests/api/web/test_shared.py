"""What the OpenAPI document says often becomes a component; what would gain little, or is a tag, stays."""

import copy
from typing import Any

from casewright.api.web.shared import share_properties

LONG: dict[str, Any] = {"type": "integer", "minimum": 2, "maximum": 12, "description": "hinges on each door " * 6}


def schemas(one: dict[str, Any], times: int) -> dict[str, Any]:
    return {f"Door{i}": {"type": "object", "properties": {"hinges": copy.deepcopy(one)}} for i in range(times)}


def test_what_several_schemas_say_alike_is_said_once() -> None:
    made = schemas({**LONG, "default": 2}, 4)
    share_properties(made)
    assert made["Hinges"] == LONG
    for i in range(4):
        assert made[f"Door{i}"]["properties"]["hinges"] == {"$ref": "#/components/schemas/Hinges", "default": 2}


def test_what_is_said_twice_in_few_words_stays() -> None:
    made = schemas({"type": "integer", "description": "hinges on each door"}, 3)
    before = copy.deepcopy(made)
    share_properties(made)
    assert made == before


def test_a_tag_and_a_taken_name_stay() -> None:
    tags = schemas({**LONG, "const": "slab"}, 6)
    taken = {**schemas(LONG, 6), "Hinges": {"type": "object"}}
    for made in (tags, taken):
        before = copy.deepcopy(made)
        share_properties(made)
        assert made == before
