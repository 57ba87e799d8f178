"""What descriptions of the plan document are built of: they describe what is written and refuse nothing."""

from typing import Any

from marshmallow import INCLUDE, Schema, fields, validate

Field = fields.Field[Any]


class Described(Schema):
    """Base: everything written is always there; more may come."""

    class Meta:
        """Allow fields that this description does not know."""

        unknown = INCLUDE


def record(
    name: str, *, texts: str = "", numbers: str = "", counts: str = "", at_times: str = "", **others: Field
) -> type[Schema]:
    """Return the description of an object: what its text, numbers and whole numbers are named, and other fields.

    A number without a unit in its name is a length in job units; `at_times` are numbers that need not be there.
    """
    declared: dict[str, Any] = {key: line() for key in texts.split()}
    declared |= {key: number() for key in numbers.split()}
    declared |= {key: fields.Integer(required=True) for key in counts.split()}
    declared |= {key: fields.Float() for key in at_times.split()}
    return Described.from_dict({**declared, **others}, name=name)


def line() -> Field:
    """Return a field for text."""
    return fields.String(required=True)


def word(*words: str) -> Field:
    """Return a field for one of a few words."""
    return fields.String(required=True, validate=validate.OneOf(words))


def number(about: str = "") -> Field:
    """Return a field for a number, with words about its unit where its name does not hold it."""
    return fields.Float(required=True, metadata={"description": about} if about else {})


def texts() -> Field:
    """Return a field for a list of text."""
    return fields.List(fields.String(), required=True)


def numbers() -> Field:
    """Return a field for a list of numbers: a point, or places."""
    return fields.List(fields.Float(), required=True)


def objects() -> Field:
    """Return a field for a list of objects that are not described further."""
    return fields.List(fields.Dict(), required=True)


def one(schema: type[Schema], **kwargs: Any) -> Field:
    """Return a field for an object."""
    return fields.Nested(schema, required=True, **kwargs)


def rows(schema: type[Schema]) -> Field:
    """Return a field for a list of objects."""
    return fields.List(fields.Nested(schema), required=True)
