"""What the OpenAPI document says of questions: one value, comparisons, cures, and what a pile yields."""

from casewright.api.job import limits
from casewright.api.job.comparison import compare_schema
from casewright.api.job.ranges import FromStockQuestion
from casewright.api.web.answer_examples import Examples
from casewright.api.web.compare import FORMATS as FORMATS_OF_COMPARISONS
from casewright.api.web.cures import FORMATS as FORMATS_OF_CURES
from casewright.api.web.from_stock import FORMATS as FORMATS_OF_PILES
from casewright.api.web.marks import SENT
from casewright.api.web.negotiation import TYPES
from casewright.api.web.operation_pieces import (
    Described,
    answer_headers,
    answers_to_post,
    format_choice,
    in_query,
    job_body,
    problem_answers,
    progress_lines,
    with_example,
)
from casewright.api.web.value import EVERY_FIELD, EXAMPLE, OWN, CellAnswer
from casewright.api.web.value import FORMATS as FORMATS_OF_VALUES
from casewright.api.wire.compare_document import CompareView
from casewright.api.wire.cures_document import CuresView
from casewright.api.wire.from_stock_document import from_stock_view
from casewright.sdk.loader import Registry
from marshmallow import Schema

OTHER_FORMATS = (FORMATS_OF_VALUES, FORMATS_OF_CURES, FORMATS_OF_PILES, FORMATS_OF_COMPARISONS)


def value_operation(examples: Examples) -> Described:
    """Describe the number for one cell: our own parameters, and any path into the cabinet beside them."""
    title = "One number for one cell"
    words = {"type": "string", "maxLength": 200}
    own = [
        {
            "name": name,
            "in": "query",
            "required": name == "field",
            "description": about,
            "schema": {"type": "string", "enum": list(EVERY_FIELD)} if name == "field" else words,
            "example": EXAMPLE.get(name, "mm" if name == "units" else "cup-35"),
        }
        for name, about in OWN.items()
        if name != "item"
    ]
    paths = {
        "name": "cabinet",
        "in": "query",
        "style": "form",
        "explode": True,
        "description": "Dotted paths into the cabinet, each a parameter of its own, as columns of a CSV job are; "
        "those after job. lead into the job.",
        "schema": {"type": "object", "additionalProperties": words},
        "example": {name: EXAMPLE[name] for name in ("width", "height", "depth")},
    }
    content = {
        TYPES["text"]: {"schema": {"type": "string"}, **with_example(examples.value("text"))},
        TYPES["xml"]: {"schema": {"type": "string"}, **with_example(examples.value("xml"))},
        TYPES["json"]: {"schema": CellAnswer, **with_example(examples.value("json"))},
    }
    return {
        "operationId": "value",
        "tags": ["questions"],
        "summary": title,
        "parameters": [format_choice(FORMATS_OF_VALUES), *own, in_query("item", OWN["item"], words), paths],
        "responses": {
            "200": {"description": title, "headers": answer_headers(), "content": content},
            "304": {"description": "The answer you hold is this one."},
            **problem_answers("bad-query", "not-acceptable", "unusable-job"),
        },
    }


def compare_operation(registry: Registry, examples: Examples) -> Described:
    """Describe comparisons."""
    title = "What changes to a job make different"
    about = "Each change is a JSON Patch (RFC 6902) or a JSON Merge Patch (RFC 7396)."
    sent = {"two-changes": {"summary": "Two changes to one part", "value": examples.comparison()}}
    content = {TYPES["json"]: {"schema": CompareView, **with_example(examples.answer("compare"))}}
    return {
        "operationId": "compare",
        "tags": ["questions"],
        "summary": title,
        "parameters": [format_choice(FORMATS_OF_COMPARISONS)],
        "requestBody": {
            "required": True,
            "description": f"At most {limits.BODY_BYTES} bytes. {about}",
            "content": {TYPES["json"]: {"schema": compare_schema(registry), "examples": sent}},
        },
        "responses": answers_to_post(title, content),
    }


def cures_operation(job: type[Schema], examples: Examples) -> Described:
    """Describe cures."""
    title = "For each stop, changes of the job that were planned and clear it"
    content = {
        TYPES["json"]: {"schema": CuresView, **with_example(examples.answer("cures"))},
        TYPES["ndjson"]: progress_lines(),
    }
    about = f"Up to {limits.CURES} a stop, of {limits.CURE_TRIES} tried at most"
    return {
        "operationId": "cures",
        "tags": ["questions"],
        "summary": title,
        "parameters": [format_choice(FORMATS_OF_CURES), *SENT],
        "requestBody": job_body(job),
        "responses": answers_to_post(about, content),
    }


def from_stock_operation(job: type[Schema], examples: Examples) -> Described:
    """Describe what a pile yields."""
    title = "The best few jobs, of ranges of sizes, that the stock on hand yields"
    about = f"At most {limits.BODY_BYTES} bytes. A range stands where a job has a size, a count or a number of shelves."
    sent = {"one-offcut": {"summary": "A cabinet as large as an offcut allows", "value": examples.pile()}}
    content = {
        TYPES["json"]: {"schema": from_stock_view(job), **with_example(examples.answer("from-stock"))},
        TYPES["ndjson"]: progress_lines(),
    }
    return {
        "operationId": "from-stock",
        "tags": ["questions"],
        "summary": title,
        "parameters": [format_choice(FORMATS_OF_PILES)],
        "requestBody": {
            "required": True,
            "description": about,
            "content": {TYPES["json"]: {"schema": FromStockQuestion, "examples": sent}},
        },
        "responses": answers_to_post(title, content),
    }
