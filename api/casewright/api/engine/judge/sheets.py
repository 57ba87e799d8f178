"""Whether sheets measure what they are sold as: their thickness against the published range of the nearest size."""

from casewright.sdk.engineering.panels import thickness_verdict
from casewright.sdk.errors import pointer_to
from casewright.sdk.loader import Registry
from casewright.sdk.model import LENGTH, Check, Finding, Job
from casewright.sdk.writer import writer


def thickness_checks(job: Job, registry: Registry) -> tuple[Check, ...]:
    """Return a caution for each sheet of the job that measures outside the range it is sold in."""
    write, checks = writer(job.units), []
    for key, material in job.materials.items():
        verdict = thickness_verdict(registry.catalogue.stuff(material.stuff), material.thickness)
        if material.kind != "sheet" or verdict is None or verdict.inside:
            continue
        message = (
            f"measures outside {write.length(verdict.least)} to {write.length(verdict.most)}, which the nearest size "
            f"sold, {write.length(verdict.nominal)}, may be; measure in several places: it is planned as measured"
        )
        limit = verdict.least if material.thickness < verdict.least else verdict.most
        finding = Finding("sheet-thickness", "caution", message, material.thickness, limit, LENGTH, verdict.source)
        checks.append(Check(pointer_to("materials", key, "thickness"), finding))
    return tuple(checks)
