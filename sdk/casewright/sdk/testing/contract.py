"""What every method's contract shares: the plugin loaded alone beside the built-ins, its options, its jobs.

A plugin's tests subclass one contract for each method and name the plugin's module and the method's id; pytest
finds the tests that the contract brings.
"""

import json
from collections.abc import Callable, Mapping
from typing import Any, ClassVar

from casewright.sdk.errors import NoGeometryError
from casewright.sdk.loader import Registry
from casewright.sdk.methods import Method
from casewright.sdk.model import Plan
from casewright.sdk.testing.asserts import assert_cuts_inside, assert_dry_fit, assert_outside, assert_sums
from casewright.sdk.testing.drawing import Declined, loaded, options_of, over
from casewright.sdk.testing.service import client, described, planned, registry_with
from casewright.sdk.testing.strategies import Document
from hypothesis import strategies as st
from marshmallow import ValidationError


class MethodContract:
    """The part of the contract that every method keeps, whatever its family.

    `plugin` is the module (or object) with the hooks; None for a method that ships with casewright. `method` is
    its id. `options` draws what a job writes beside the method's name; None draws it from the option schema.
    `jobs` counts the generated jobs that must be planned, `component` begins the method's name in OpenAPI.
    """

    plugin: ClassVar[object] = None
    method: ClassVar[str]
    options: ClassVar[st.SearchStrategy[dict[str, Any]] | None] = None
    jobs: ClassVar[int] = 40

    family: ClassVar[str]
    component: ClassVar[str]
    _registry: ClassVar[Registry | None] = None

    @classmethod
    def registry(cls) -> Registry:
        """Return the built-ins and the plugin under test; nothing else that is installed is loaded."""
        if "_registry" not in cls.__dict__:
            cls._registry = registry_with(*([] if cls.plugin is None else [cls.plugin]))
        assert cls._registry is not None
        return cls._registry

    @classmethod
    def under_test(cls) -> Any:
        """Return the method. Fails where the plugin registers none of that id."""
        methods = getattr(cls.registry(), cls.family)
        assert cls.method in methods, f"the plugin registers no {cls.method!r}; {cls.family} are {', '.join(methods)}"
        return methods[cls.method]

    @classmethod
    def drawn_options(cls) -> st.SearchStrategy[dict[str, Any]]:
        """Return the strategy that draws options as a job writes them."""
        return options_of(cls.under_test().options) if cls.options is None else cls.options

    @classmethod
    def loaded(cls, options: Mapping[str, Any]) -> dict[str, Any]:
        """Return options as the method gets them."""
        return loaded(cls.under_test().options, options)

    def test_options_read_alike_every_time(self) -> None:
        """Options come through JSON unchanged, load the same each time, and unknown keys are refused."""
        schema = self.under_test().options

        def check(options: dict[str, Any]) -> None:
            assert json.loads(json.dumps(options)) == options, f"{options!r} does not come through JSON unchanged"
            assert loaded(schema, options) == loaded(schema, dict(reversed(options.items())))

        over(50, "options", check, options=self.drawn_options())
        loaded(schema, self.least())
        try:
            loaded(schema, {**self.least(), "no-such-option": 1})
        except ValidationError:
            return
        raise AssertionError("an unknown option is taken; leave Meta.unknown as OptionSchema sets it")

    @classmethod
    def least(cls) -> dict[str, Any]:
        """Return the fewest options a job can write: the required ones."""
        option_fields = cls.under_test().options().load_fields
        needed = {f.data_key or name for name, f in option_fields.items() if f.required}
        assert not needed, f"options {', '.join(sorted(needed))} are required; give each a default a shop would take"
        return {}

    def test_options_are_described(self) -> None:
        """Every option has a description and stands in the published JSON Schema, which refuses others."""
        method: Method = self.under_test()
        schema = described(method.options)
        assert schema["additionalProperties"] is False
        for name, option in method.options().load_fields.items():
            key = option.data_key or name
            assert key in schema["properties"], f"option {key} is not in the published schema"
            assert option.metadata.get("description"), f'option {key} has no about="…"'

    def test_the_service_publishes_it(self) -> None:
        """The method is listed by /v1/methods and its options are a component of /openapi.json."""
        service = client(self.registry())
        listed = service.get("/v1/methods").get_json()["methods"]
        assert (self.family, self.method) in [(m["family"], m["id"]) for m in listed]
        components = service.get("/openapi.json").get_json()["components"]["schemas"]
        tags = [value.get("const") for name, one in components.items() if name.startswith(self.component)
                for value in one.get("properties", {}).values()]  # fmt: skip
        assert self.method in tags, f"no component {self.component}… picks {self.method}"
        left_out = [f for f in service.get("/v1/plugins").get_json()["left_out"] if self.method in f]
        assert not left_out, f"left out: {left_out[0]}"

    def check_jobs(self, jobs: st.SearchStrategy[Document], check: Callable[[Plan], None], what: str) -> None:
        """Plan `jobs` generated jobs and check each; those that cannot be built do not count."""
        registry = self.registry()

        def checked(job: Document) -> None:
            try:
                made = planned(job, registry)
            except NoGeometryError as error:
                raise Declined(error) from None
            check(made)

        over(self.jobs, what, checked, job=jobs)

    @staticmethod
    def assert_sound(made: Plan) -> None:
        """Assert what holds for every plan: exact sums, cuts inside their parts, dry fit, outside sizes."""
        assert_sums(made)
        assert_cuts_inside(made.parts)
        assert_dry_fit(made)
        assert_outside(made)
