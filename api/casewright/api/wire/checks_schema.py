"""A check of the plan document as marshmallow schema."""

from typing import get_args

from casewright.api.wire.described import measured, record, text, word
from casewright.sdk.model import Level

LEVELS = get_args(Level)
PlanCheck = record(
    "PlanCheck",
    "A finding; level `stop` means do not cut.",
    code=text("what kind it is; GET /v1/checks/codes lists every code"),
    level=word("how grave it is", *LEVELS),
    subject=text("id of a part, joint or cabinet, or a JSON Pointer into the job"),
    message=text("what was found, job units"),
    value=measured("what was found, in `unit`"),
    limit=measured("what it is held against, in `unit`"),
    unit=text("unit of value and limit"),
    source=text("code of the source of the limit"),
)
