"""Fields of the job document beyond the SDK's: keys, maps, shelves, the tape, and a method picked by id."""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from casewright.api.job import limits
from casewright.sdk.fields import Count, Length, Text, refuse, units_now
from casewright.sdk.units import TAPES, Units
from marshmallow import Schema, ValidationError, fields

ID_PATTERN = "^[A-Za-z0-9][A-Za-z0-9_.-]*$"
_ID = re.compile(ID_PATTERN)
ID_RULE = "a name of the letters A to Z, digits, dots, dashes and underscores, a letter or digit first"
TAPE_WORDS: dict[str, Fraction] = {
    str(size): size for size in sorted({size for sizes in TAPES.values() for size in sizes}, reverse=True)
}
HEIGHTS: Mapping[Units, str] = {"in": "[8, 16]", "mm": "[200, 400]"}
TAPE_NUMBERS: tuple[float | int, ...] = (1, 0.5, 0.1, 0.01)


class Key(Text):
    """An id or a material key: letters, digits, dot, dash and underscore, beginning with a letter or digit."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(least=1, most=limits.ID_LENGTH, pattern=ID_PATTERN, **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if isinstance(value, str) and 0 < len(value) <= limits.ID_LENGTH and not _ID.search(value):
            raise refuse(ID_RULE, self.mended(value))
        return super()._deserialize(value, attr, data, **kwargs)

    def mended(self, value: str) -> str:
        """Return what to write for a name with letters that none may have."""
        parts = unicodedata.normalize("NFKD", value.replace("ß", "ss"))
        plain = "".join([one for one in parts if not unicodedata.combining(one)])
        clean = re.sub("[^A-Za-z0-9_.]+", "-", plain).strip("_.-")
        return f'Write "{clean}".' if clean else 'Write a short name of these, such as "a-1".'


class StuffKey(Key):
    """The id of a stuff of the catalogue, which has no names but its own."""

    def mended(self, value: str) -> str:
        """Return where those there are stand, and one of them."""
        return 'Write an id listed by /v1/materials, such as "birch-plywood".'


class MaterialKey(Key):
    """The key of one of the job's materials, of one of the `kinds` given."""

    def mended(self, value: str) -> str:
        """Return what to write for a key that may be meant, else where the keys there are stand."""
        return super().mended(value) if _ID.search(value.strip()[:1]) else 'Write the key of one of "materials".'

    def __init__(self, *kinds: str, **kwargs: Any) -> None:
        self.kinds = kinds
        super().__init__(**kwargs)


class Constant(fields.Field[str]):
    """Exactly one word, the tag of one branch of a choice."""

    def __init__(self, word: str, **kwargs: Any) -> None:
        self.word = word
        super().__init__(required=True, **kwargs)


class MapOf(fields.Dict):
    """An object whose keys the job chooses; `least` and `most` bound how many."""

    def __init__(self, values: fields.Field[Any], *, most: int, **kwargs: Any) -> None:
        self.most = most
        super().__init__(keys=Key(), values=values, **kwargs)


class Rows(fields.List[Any]):
    """An array of bounded length."""

    def __init__(self, inner: fields.Field[Any], *, least: int = 0, most: int, **kwargs: Any) -> None:
        self.least, self.most = least, most
        super().__init__(inner, **kwargs)


class Shelves(fields.Field[Any]):
    """Fixed shelves: a count spread evenly, or the list of heights of their undersides over the floor."""

    def __init__(self, **kwargs: Any) -> None:
        self.count = Count(most=limits.SHELVES)
        self.height = Length(most=limits.GREATEST_CABINET)
        super().__init__(**kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if not isinstance(value, list):
            try:
                return self.count.deserialize(value)
            except ValidationError:
                raise refuse(
                    f"a whole number from 0 to {limits.SHELVES}, or a list of heights",
                    "Write 2 for two spread evenly, or the height of each one's underside over the floor: "
                    f"{HEIGHTS[units_now()]}.",
                ) from None
        if len(value) > limits.SHELVES:
            raise refuse(f"at most {limits.SHELVES} heights", "Give fewer shelves.")
        errors: dict[int, Any] = {}
        heights: list[int] = []
        for i, item in enumerate(value):
            try:
                heights.append(self.height.deserialize(item))
            except ValidationError as error:
                errors[i] = error.messages
        if errors:
            raise ValidationError(errors)
        return tuple(heights)


class Tape(fields.Field[Fraction]):
    """The finest division of the bench tape, in job units."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Fraction:
        number = isinstance(value, (int, float)) and not isinstance(value, bool) and value in TAPE_NUMBERS
        size = Fraction(repr(value)) if number else TAPE_WORDS.get(value) if isinstance(value, str) else None
        if size is None:
            is_number = isinstance(value, (int, float)) and not isinstance(value, bool)
            raise refuse(
                "a tape division",
                'Write "1/64" or another power of two in inches; 1, 0.5, 0.1 or 0.01 in mm.',
                beyond_schema=is_number and min(TAPE_NUMBERS) <= value <= max(TAPE_NUMBERS),
            )
        return size


@dataclass(frozen=True, slots=True)
class Branch:
    """One method a job may pick: its option schema, who registered it, and what its id and title are."""

    id: str
    title: str
    family: str
    plugin: str
    options: type[Schema]


@dataclass(frozen=True, slots=True)
class PickWords:
    """How a choice is named: `what` in plain words, `group` in component names, `tag` as the key that holds the id."""

    what: str
    group: str
    tag: str = "method"


class Pick(fields.Field[Any]):
    """An object that names a method by id under `tag` and holds that method's options beside it.

    `common` holds keys that every method shares here; an object of these alone leaves the method to the house.
    """

    def __init__(
        self,
        branches: Mapping[str, Branch],
        words: PickWords,
        *,
        common: type[Schema] | None = None,
        default_method: str | None = None,
        **kwargs: Any,
    ) -> None:
        self.branches, self.common, self.default_method = dict(branches), common, default_method
        self.what, self.group, self.tag = words.what, words.group, words.tag
        super().__init__(**kwargs)

    def __deepcopy__(self, memo: dict[int, Any]) -> "Pick":
        """Schemas copy their fields; the branches are shared, being read only."""
        import copy

        return copy.copy(self)
