"""Examples of answers for the OpenAPI document.

They are made by planning a small job with the built-in methods alone, where the document is written to its file; a
service takes them from that file.
"""

import json
from abc import ABC, abstractmethod
from collections.abc import Mapping
from functools import cached_property, lru_cache
from importlib.resources import files
from typing import Any

from casewright.api.job.comparison import read_comparison
from casewright.api.job.ranges import read_question
from casewright.api.use.compare import compare
from casewright.api.use.cures import cures_document
from casewright.api.use.from_stock import from_stock_answer
from casewright.api.use.job_input import JobInput
from casewright.api.use.planning import Planner
from casewright.api.web.negotiation import TYPES
from casewright.api.web.value import example_answer
from casewright.api.web.views import VIEWS
from casewright.sdk.loader import load
from orjson import dumps, loads

LID = {
    "units": "mm",
    "materials": {"mdf": {"kind": "sheet", "stuff": "mdf", "thickness": 18}},
    "loose_parts": [{"id": "lid", "material": "mdf", "length": 500, "width": 300}],
}
_VIEWS = {view.name: view for view in VIEWS}


class Examples(ABC):
    """What is sent and what is answered; None where there is no such example."""

    @abstractmethod
    def view(self, name: str, form: str) -> Any:
        """Return a view's answer: JSON values, or text."""

    @abstractmethod
    def value(self, form: str) -> Any:
        """Return the answer to a question for one number."""

    @abstractmethod
    def answer(self, name: str) -> Any:
        """Return the answer to a comparison, to a job's cures or to a question to a pile."""

    @property
    @abstractmethod
    def version(self) -> Any:
        """What runs here."""

    def comparison(self) -> dict[str, Any]:
        """Return a comparison to send."""
        wider = {"op": "replace", "path": "/loose_parts/0/width", "value": 320}
        return {"job": LID, "changes": [{"name": "a wider lid", "patch": [wider]}]}

    def pile(self) -> dict[str, Any]:
        """Return a question to a pile to send."""
        width = {"least": 500, "most": 700, "step": 100}
        cabinet = {"id": "tools", "width": width, "height": 600, "depth": 250, "case": {"material": "ply"}}
        ply = {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}
        offcut = {"id": "left-over", "material": "ply", "length": 1500, "width": 1200}
        job = {"units": "mm", "materials": {"ply": ply}, "cabinets": [cabinet], "stock": {"offcuts": [offcut]}}
        return {"job": job, "aim": "largest", "answers": 1}


class AnswerExamples(Examples):
    """Answers to a job of one part, and to one cabinet from a pile."""

    def __init__(self) -> None:
        self.planner = Planner(load(discover="built-in"))
        made_by = self.planner.made_by
        self.planner.made_by = {**made_by, "plugins": made_by["plugins"][:1]}  # one shows what they look like
        self.lid = JobInput(LID, self.planner.registry)
        self.plan = self.planner.plan(self.lid)
        offcut = {"id": "left-over", "material": "mdf", "length": 700, "width": 300}
        self.lid_from_offcut = self.planner.plan(
            JobInput({**LID, "stock": {"offcuts": [offcut]}}, self.planner.registry)
        )

    def view(self, name: str, form: str) -> Any:
        """Return a view's answer: JSON values, or text."""
        view = _VIEWS[name]
        plan = self.lid_from_offcut if name == "stock" else self.plan
        body = view.write(self.planner.write(plan, self.lid.fingerprint, view.sections), form)
        return loads(body) if form == "json" else body.decode()

    def value(self, form: str) -> Any:
        """Return the answer to a question for one number."""
        body = example_answer(self.planner, form)
        return loads(body) if form == "json" else body.decode()

    def answer(self, name: str) -> Any:
        """Return the answer to a comparison, to a job's cures or to a question to a pile."""
        return loads(dumps(self._answers[name]))

    @cached_property
    def _answers(self) -> dict[str, Any]:
        registry = self.planner.registry
        return {
            "compare": compare(*read_comparison(self.comparison()), registry),
            "cures": cures_document(self.planner, self.lid),
            "from-stock": from_stock_answer(read_question(self.pile(), registry), self.planner),
        }

    @property
    def version(self) -> Any:
        """What runs here."""
        return self.planner.made_by


class PublishedExamples(Examples):
    """The examples that stand in the published document."""

    def __init__(self) -> None:
        text = files("casewright.openapi").joinpath("openapi.json").read_text("utf-8")
        self.paths: Mapping[str, Any] = json.loads(text)["paths"]

    def view(self, name: str, form: str) -> Any:
        """Return a view's answer."""
        return self._answer(f"/v1/{name}", "post", form)

    def value(self, form: str) -> Any:
        """Return the answer to a question for one number."""
        return self._answer("/v1/value", "get", form)

    def answer(self, name: str) -> Any:
        """Return the answer to a comparison, to a job's cures or to a question to a pile."""
        return self._answer(f"/v1/{name}", "post", "json")

    @property
    def version(self) -> Any:
        """What runs here."""
        return self._answer("/version", "get", "json")

    def _answer(self, path: str, verb: str, form: str) -> Any:
        responses = self.paths.get(path, {}).get(verb, {}).get("responses", {})
        return responses.get("200", {}).get("content", {}).get(TYPES[form], {}).get("example")


@lru_cache(maxsize=1)
def published_examples() -> Examples:
    """Return the examples that stand in the published document, read once."""
    return PublishedExamples()
