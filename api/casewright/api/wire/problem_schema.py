"""Problems as they leave (RFC 9457), as marshmallow schemas."""

from casewright.api.wire.described import record, rows, text, whole

ProblemEntry = record(
    "ProblemEntry",
    "One thing that is wrong.",
    pointer=text("JSON Pointer into the body, or the header or parameter"),
    rule=text("the rule that is broken"),
    got=text("what was got"),
    fix=text("what to do"),
    row=whole("row of a CSV body; the heading is 1", required=False),
    column=text("column of a CSV body", required=False),
)

ProblemDocument = record(
    "Problem",
    "A problem (RFC 9457).",
    type=text("what kind it is: a path that explains it"),
    title=text("the kind in words"),
    status=whole("the HTTP status"),
    detail=text("what happened"),
    errors=rows(ProblemEntry, "each thing that is wrong"),
    plugin=text("the plugin that failed", required=False),
    method=text("the method that failed", required=False),
)
