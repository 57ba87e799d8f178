"""Which reader reads which field: made once for each schema class, so that schemas may hold themselves."""

from typing import Any

from casewright.api.job.fields import MapOf, Pick, Rows
from casewright.api.job.picking import PickReader
from casewright.api.job.reading import LeafReader, MapReader, NullReader, ObjectReader, Reader, RowsReader
from marshmallow import Schema, fields


class Readers:
    """Makes readers for fields and keeps one per schema class, so that schemas may hold themselves."""

    def __init__(self) -> None:
        self._by_class: dict[type[Schema], ObjectReader] = {}

    def object(self, schema: Schema | type[Schema]) -> ObjectReader:
        """Return the reader of a schema."""
        cls = schema if isinstance(schema, type) else type(schema)
        if cls not in self._by_class:
            reader = ObjectReader(cls())
            self._by_class[cls] = reader
            reader.fill(self.of)
        return self._by_class[cls]

    def of(self, field: fields.Field[Any]) -> Reader:
        """Return the reader of a field."""
        reader = self._plain(field)
        return NullReader(reader) if field.allow_none else reader

    def _plain(self, field: fields.Field[Any]) -> Reader:
        if isinstance(field, fields.Nested):
            return self.object(type(field.schema))
        if isinstance(field, Rows):
            return RowsReader(field, self.of(field.inner))
        if isinstance(field, MapOf):
            assert field.value_field is not None
            return MapReader(field, self.of(field.value_field))
        if isinstance(field, Pick):
            return PickReader(field, None if field.common is None else self.object(field.common))
        return LeafReader(field)
