"""Options as rows of a table: what one takes, with unit and limits, its default, and what it is."""

from typing import Any

from casewright.api.use.method_pages.tables import cell
from casewright.sdk.fields import Choice, Count, Flag, Length, Number, Text
from casewright.sdk.writer import INCHES, MILLIMETRES
from marshmallow import Schema, fields, missing


def option_rows(options: type[Schema]) -> list[list[str]]:
    """Return a row for each option."""
    return [
        [f"`{name}`", cell(_takes(field)), cell(_default(field)), cell(str(field.metadata.get("description", "")))]
        for name, field in options().fields.items()
    ]


def both(nm: int) -> str:
    """Return a length in mm and in inches."""
    return f"{MILLIMETRES.length(nm)} ({INCHES.length(nm)})"


def _takes(field: fields.Field[Any]) -> str:
    """Return what is read: its kind, its unit and its limits."""
    if isinstance(field, Length):
        if field.most >= Length().most:
            return f"a length of {both(field.least)} or more" if field.least else "a length"
        return f"a length from {both(field.least)} to {both(field.most)}"
    if isinstance(field, Count):
        return f"a whole number from {field.least} to {field.most}"
    if isinstance(field, Number):
        return f"a number from {field.least:g} to {field.most:g}"
    if isinstance(field, Flag):
        return "true or false"
    if isinstance(field, Text):
        pattern = f" that matches {field.pattern}" if field.pattern else ""
        return f"text of {field.least} to {field.most} characters{pattern}"
    if isinstance(field, Choice):
        return "one of " + ", ".join(f"`{word}`" for word in field.words)
    return "see the schema of `/v1/methods`"


def _default(field: fields.Field[Any]) -> str:
    """Return the default; one that depends on the parts is explained by the description."""
    value = field.load_default
    if value is missing:
        return "must be given" if field.required else ""
    if value is None:
        return "by the parts" if "default" in str(field.metadata.get("description", "")).lower() else "none"
    if isinstance(field, Length) and isinstance(value, int):
        return both(value)
    if isinstance(value, bool):
        return str(value).lower()
    return f"{value:g}" if isinstance(value, float) else str(value)
