"""What descriptions of the plan document are built of: they describe what is written and refuse nothing."""

from typing import Any

from marshmallow import INCLUDE, Schema, fields, validate

Field = fields.Field[Any]


class Described(Schema):
    """Base: everything written is always there; more may come."""

    class Meta:
        """Allow fields that this description does not know."""

        unknown = INCLUDE


def record(name: str, /, **declared: Field) -> type[Schema]:
    """Return the description of an object by its fields, in the order they are written in."""
    return Described.from_dict(dict(declared), name=name)


def word(*words: str) -> Field:
    """Return a field for one of a few words."""
    return fields.String(required=True, validate=validate.OneOf(words))


def number(about: str) -> Field:
    """Return a field for a number, with words about its unit."""
    return fields.Float(required=True, metadata={"description": about})


def one(schema: type[Schema], **kwargs: Any) -> Field:
    """Return a field for an object."""
    return fields.Nested(schema, required=True, **kwargs)


def rows(schema: type[Schema]) -> Field:
    """Return a field for a list of objects."""
    return fields.List(fields.Nested(schema), required=True)


TEXT: Field = fields.String(required=True)
TEXT_OR_NULL: Field = fields.String(required=True, allow_none=True)
WHOLE: Field = fields.Integer(required=True)
NUMBER: Field = fields.Float(required=True)
"""A number without a unit in its name is a length in job units."""

ANY: Field = fields.Raw(required=True, allow_none=True)
TEXTS: Field = fields.List(fields.String(), required=True)
NUMBERS: Field = fields.List(fields.Float(), required=True)
"""A point, or places."""

OBJECTS: Field = fields.List(fields.Dict(), required=True)
