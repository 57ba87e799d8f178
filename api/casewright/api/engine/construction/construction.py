"""What is built of one cabinet so far: a value, of which each stage returns a larger one."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from casewright.api.engine.construction.context import CabinetJob, Context
from casewright.api.engine.construction.draft import Draft
from casewright.api.engine.construction.equal import LaidOut, Measure
from casewright.sdk.loader import Registry
from casewright.sdk.materials import Stuff
from casewright.sdk.methods import Body
from casewright.sdk.model import Cabinet, Check, Feature, Finding, HardwareLine, HardwareUse, Joint, Material
from casewright.sdk.writer import Writer


@dataclass(frozen=True, slots=True)
class Construction:
    """One cabinet as far as it is built: parts by key, joints, hardware, and what was found while building.

    `asked` are the numbers its layout chose, before any was made equal with others.
    """

    context: Context
    drafts: Mapping[str, Draft] = field(default_factory=dict)
    joints: tuple[Joint, ...] = ()
    hardware: tuple[HardwareLine, ...] = ()
    checks: tuple[Check, ...] = ()
    laid_out: frozenset[LaidOut] = frozenset()

    @property
    def id(self) -> str:
        """The cabinet's id."""
        return self.context.id

    @property
    def job(self) -> CabinetJob:
        """What planning the cabinet may read of its job."""
        return self.context.job

    @property
    def cabinet(self) -> Cabinet:
        """The cabinet as the job describes it."""
        return self.context.cabinet

    @property
    def registry(self) -> Registry:
        """Methods and catalogue."""
        return self.context.registry

    @property
    def write(self) -> Writer:
        """What writes quantities in words, in the job's units."""
        return self.context.write

    def material(self, key: str) -> Material:
        """Return a material of the job by key."""
        return self.context.material(key)

    def stuff(self, material: Material) -> Stuff:
        """Return what a material is made of."""
        return self.context.stuff(material)

    def body(self, draft: Draft) -> Body:
        """Return a draft as a joint method may know it."""
        return self.context.body(draft)

    def with_parts(self, *drafts: Draft) -> "Construction":
        """Return it with parts added, as they came out, or changed where their key is there already."""
        return replace(self, drafts={**self.drafts, **{draft.key: self._as_built(draft) for draft in drafts}})

    def _as_built(self, draft: Draft) -> Draft:
        out = self.cabinet.built.get(draft.key)
        return draft if out is None or draft.key in self.drafts else draft.as_built(out)

    def with_cuts(self, key: str, *features: Feature) -> "Construction":
        """Return it with more cuts in one part."""
        return self if not features else self.with_parts(self.drafts[key].cut(*features))

    def with_joints(self, *joints: Joint) -> "Construction":
        """Return it with joints added."""
        return replace(self, joints=self.joints + joints)

    def with_hardware(self, used_for: str, *uses: HardwareUse) -> "Construction":
        """Return it with hardware given in the cabinet frame, for one cabinet; quantities are over its count."""
        if not uses:
            return self
        count = self.cabinet.count
        lines = [
            HardwareLine(use.item, use.name, self.id, used_for, use.count * count, use.at, use.where) for use in uses
        ]
        return replace(self, hardware=(*self.hardware, *lines))

    def with_findings(self, subject: str, *findings: Finding) -> "Construction":
        """Return it with findings about `subject`, which become checks."""
        return (
            self
            if not findings
            else replace(self, checks=(*self.checks, *(Check(subject, finding) for finding in findings)))
        )

    def asking(self, measure: Measure, *nm: int) -> "Construction":
        """Return it with numbers noted that its layout asks for, so that nearly equal ones can be made equal."""
        wanted = {(measure, one) for one in nm}
        return self if wanted <= self.laid_out else replace(self, laid_out=self.laid_out | wanted)

    def shift(self, measure: Measure, place: tuple[int, int], ends: tuple[int, int]) -> tuple["Construction", int]:
        """Return it with a place noted, and how far that is moved, up its axis, to be like others nearly there.

        It is measured from the nearer of two ends, as it is when it is cut.
        """
        low, high = place[0] - ends[0], ends[1] - place[1]
        near = min(low, high)
        by = self.context.equal(measure, near) - near
        return self.asking(measure, near), by if near == low else -by

    def next_number(self, stem: str) -> int:
        """Return the number of the next part of a kind: one more than there are whose keys begin with its stem."""
        return 1 + sum(key.startswith(f"{stem}-") for key in self.drafts)
