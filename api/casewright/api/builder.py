"""A job built call by call, so that an editor completes and a type checker checks each key.

    job = JobBuilder(units="mm")
    job.material("ply", kind="sheet", stuff="birch-plywood", thickness=18)
    job.cabinet(id="tools", width=600, height=700, depth=300, case={"material": "ply"})
    answer = plan(job.document)

Nothing is checked here: `plan` says what is wrong, with its place.
"""

from typing import TYPE_CHECKING, Any, Self, cast

if TYPE_CHECKING:
    from typing import Unpack

    from casewright.api.documents import Cabinet, House, Job, JobDocument, LoosePart, Material, Shop, Stock, Wall

__all__ = ["JobBuilder"]


class JobBuilder:
    """A job document being built; every call adds to it and returns the builder."""

    def __init__(self, **values: "Unpack[Job]") -> None:
        self._values: dict[str, Any] = dict(values)

    @property
    def document(self) -> "JobDocument":
        """The job document."""
        return cast("JobDocument", self._values)

    def material(self, key: str, **values: "Unpack[Material]") -> Self:
        """Add a material by its key."""
        self._values.setdefault("materials", {})[key] = dict(values)
        return self

    def house(self, **values: "Unpack[House]") -> Self:
        """Say what every cabinet has that does not say otherwise."""
        self._values.setdefault("house", {}).update(values)
        return self

    def cabinet(self, **values: "Unpack[Cabinet]") -> Self:
        """Add a cabinet."""
        self._values.setdefault("cabinets", []).append(dict(values))
        return self

    def loose_part(self, **values: "Unpack[LoosePart]") -> Self:
        """Add a part that is only cut."""
        self._values.setdefault("loose_parts", []).append(dict(values))
        return self

    def wall(self, **values: "Unpack[Wall]") -> Self:
        """Say what is known of the wall."""
        self._values.setdefault("wall", {}).update(values)
        return self

    def stock(self, **values: "Unpack[Stock]") -> Self:
        """Say what there is to cut from."""
        self._values.setdefault("stock", {}).update(values)
        return self

    def shop(self, **values: "Unpack[Shop]") -> Self:
        """Say what the shop can do."""
        self._values.setdefault("shop", {}).update(values)
        return self
