"""What every stage of planning one cabinet is given: the cabinet, what it reads of its job, and the registry."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from casewright.api.engine.construction.allowance import answer_of
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.equal import LaidOut, Measure
from casewright.sdk.errors import NoGeometryError, Problem
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Stuff
from casewright.sdk.methods import Body, CannotError
from casewright.sdk.model import Cabinet, Climate, Job, Material, Shop, Wall
from casewright.sdk.units import Units
from casewright.sdk.writer import Writer, writer

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True)
class CabinetJob:
    """All that planning one cabinet may read of its job, so that a plan of it can be kept by what it hangs on.

    Of the wall it is given the cabinet's own places only, and no wall at all for a cabinet that has no mounting.
    `equal` are numbers its layout asks for that are made equal with others of the job.
    """

    units: Units
    materials: Mapping[str, Material]
    wall: Wall | None
    shop: Shop
    climate: Climate
    equal: Mapping[LaidOut, int] = field(default_factory=dict)


def job_of(job: Job, cabinet: Cabinet) -> CabinetJob:
    """Return what planning one cabinet of a job may read of it."""
    wall = None
    if job.wall is not None and cabinet.mounting is not None:
        own = {cabinet.id: job.wall.cabinets_at[cabinet.id]} if cabinet.id in job.wall.cabinets_at else {}
        wall = replace(job.wall, cabinets_at=own)
    return CabinetJob(job.units, job.materials, wall, job.shop, job.climate)


@dataclass(frozen=True, slots=True)
class Context:
    """One cabinet to be planned, what its planning may read of the job, and the methods and catalogue it uses."""

    job: CabinetJob
    cabinet: Cabinet
    registry: Registry

    @property
    def id(self) -> str:
        """The cabinet's id."""
        return self.cabinet.id

    @property
    def write(self) -> Writer:
        """What writes quantities in words, in the job's units."""
        return writer(self.job.units)

    def material(self, key: str) -> Material:
        """Return a material of the job by key."""
        return self.job.materials[key]

    def stuff(self, material: Material) -> Stuff:
        """Return what a material is made of."""
        return self.registry.catalogue.stuff(material.stuff)

    def equal(self, measure: Measure, nm: int) -> int:
        """Return what a number that a layout asks for is made equal to: mostly itself."""
        return self.job.equal.get((measure, nm), nm)

    def body(self, draft: Draft) -> Body:
        """Return a draft as a joint method may know it."""
        return Body(draft.name, draft.role, draft.material, self.stuff(draft.material), draft.thickness)

    def call(self, family: str, method: str, pointer: str, question: Callable[[], Answer]) -> Answer:
        """Call a method and turn what it raises into a problem that names the place or the plugin.

        `CannotError` becomes a 422 at `pointer`; anything else is the plugin's fault and names it.
        """
        try:
            answer: Answer = answer_of(self.registry, family, method, question, refusals=True)
        except CannotError as error:
            raise NoGeometryError(error.problem(pointer)) from error
        return answer

    def require_room(self, size: int, pointer: str, what: str, fix: str) -> None:
        """Refuse a job in which `what` comes out at zero or less."""
        if size <= 0:
            got = self.write.length(size)
            raise NoGeometryError(Problem(pointer, f"{what} greater than zero", got, fix))
