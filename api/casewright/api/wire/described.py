"""What descriptions of the plan document are built of: they describe what is written and refuse nothing.

Every field takes words about it, which the OpenAPI document publishes; `required=False` marks what is not always there
and `allow_none=True` what may be null.
"""

import types
from typing import Any

from marshmallow import INCLUDE, Schema, fields, validate

Field = fields.Field[Any]

IN_JOB_UNITS = ", job units"


class Described(Schema):
    """Base: what is required is always there; more may come."""

    class Meta:
        """Allow fields that this description does not know."""

        unknown = INCLUDE


def record(name: str, about: str, /, **declared: Field) -> type[Schema]:
    """Return the description of an object by its fields, in the order they are written in."""
    meta = type("Meta", (Described.Meta,), {"description": about})
    body: dict[str, Any] = {**declared, "Meta": meta}
    made: type[Schema] = types.new_class(name, (Described,), exec_body=lambda namespace: namespace.update(body))
    return made


def text(about: str, **kwargs: Any) -> Field:
    """Return a field for text."""
    return fields.String(**_described(about, kwargs))


def word(about: str, *words: str, **kwargs: Any) -> Field:
    """Return a field for one of a few words."""
    return fields.String(validate=validate.OneOf(words), **_described(about, kwargs))


def whole(about: str, **kwargs: Any) -> Field:
    """Return a field for a whole number."""
    return fields.Integer(**_described(about, kwargs))


def number(about: str, **kwargs: Any) -> Field:
    """Return a field for a number; its unit is in the words or ends its name."""
    return fields.Float(**_described(about, kwargs))


def size(about: str, **kwargs: Any) -> Field:
    """Return a field for a length as a number in job units."""
    return fields.Float(**_described(about + IN_JOB_UNITS, kwargs))


def flag(about: str, **kwargs: Any) -> Field:
    """Return a field for true or false."""
    return fields.Boolean(**_described(about, kwargs))


def texts(about: str, **kwargs: Any) -> Field:
    """Return a field for a list of texts."""
    return fields.List(fields.String(), **_described(about, kwargs))


def wholes(about: str, **kwargs: Any) -> Field:
    """Return a field for a list of whole numbers."""
    return fields.List(fields.Integer(), **_described(about, kwargs))


def numbers(about: str, **kwargs: Any) -> Field:
    """Return a field for a list of numbers."""
    return fields.List(fields.Float(), **_described(about, kwargs))


def sizes(about: str, **kwargs: Any) -> Field:
    """Return a field for a point, or places along an axis, in job units."""
    return numbers(about + IN_JOB_UNITS, **kwargs)


def points(about: str, **kwargs: Any) -> Field:
    """Return a field for a list of points, or of lists of numbers."""
    return fields.List(fields.List(fields.Float()), **_described(about, kwargs))


def pairs(about: str, **kwargs: Any) -> Field:
    """Return a field for a list of pairs, each a name and a number."""
    either = fields.Raw(metadata={"anyOf": [{"type": "string"}, {"type": "number"}]})
    return fields.List(fields.List(either), **_described(about, kwargs))


def measured(about: str) -> Field:
    """Return a field for what a check found, or for its limit: a number, a word or nothing."""
    either = {"anyOf": [{"type": "number"}, {"type": "string"}, {"type": "null"}]}
    return fields.Raw(required=True, allow_none=True, metadata={"description": about, **either})


def anything(about: str, **kwargs: Any) -> Field:
    """Return a field for any JSON value."""
    return fields.Raw(**_described(about, kwargs))


def one(schema: type[Schema], about: str = "", **kwargs: Any) -> Field:
    """Return a field for an object."""
    return fields.Nested(schema, **_described(about, kwargs))


def rows(schema: type[Schema], about: str, **kwargs: Any) -> Field:
    """Return a field for a list of objects."""
    return fields.List(fields.Nested(schema), **_described(about, kwargs))


def mapping(values: Field, about: str, **kwargs: Any) -> Field:
    """Return a field for an object of free keys, all of whose values are alike."""
    return fields.Dict(keys=fields.String(), values=values, **_described(about, kwargs))


def _described(about: str, kwargs: dict[str, Any]) -> dict[str, Any]:
    metadata = {"description": about} if about else {}
    return {"required": True, "metadata": metadata, **kwargs}


CABINET = text("id of its cabinet")
MASS_LB = number("the mass in pounds; of jobs in inches", required=False)
"""Beside every mass in kilograms."""
