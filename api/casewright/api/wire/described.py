"""What descriptions of the plan document are built of: they describe what is written and refuse nothing."""

from typing import Any

from marshmallow import INCLUDE, Schema, fields, validate


class Described(Schema):
    """Base: everything written is always there; more may come."""

    class Meta:
        """Allow fields that this description does not know."""

        unknown = INCLUDE


def line(**kwargs: Any) -> fields.String:
    """Return a field for text."""
    return fields.String(required=True, **kwargs)


def word(*words: str) -> fields.String:
    """Return a field for one of a few words."""
    return fields.String(required=True, validate=validate.OneOf(words))


def number(about: str = "", **kwargs: Any) -> fields.Float:
    """Return a field for a number; without a unit in its name it is a length in job units."""
    return fields.Float(required=True, metadata={"description": about} if about else {}, **kwargs)


def whole() -> fields.Integer:
    """Return a field for a whole number."""
    return fields.Integer(required=True)


def texts() -> fields.List[Any]:
    """Return a field for a list of text."""
    return fields.List(fields.String(), required=True)


def numbers() -> fields.List[Any]:
    """Return a field for a list of numbers: a point, or places."""
    return fields.List(fields.Float(), required=True)


def rows(schema: type[Schema]) -> fields.List[Any]:
    """Return a field for a list of objects."""
    return fields.List(fields.Nested(schema), required=True)
