"""A job document (JSON values) into a job. The one entry of the reading side."""

from typing import Any

from casewright.api.job.built import check_built
from casewright.api.job.job_builder import JobBuilder
from casewright.api.job.problems import Findings
from casewright.api.job.reading import UNREAD
from casewright.api.job.references import check
from casewright.api.job.schema import JobSchemas, job_schemas
from casewright.sdk import model
from casewright.sdk.fields import units_in_force
from casewright.sdk.loader import Registry
from casewright.sdk.units import Units


def read_job(document: Any, registry: Registry) -> model.Job:
    """Return the job a document describes, every default filled in.

    Raises `BadDocumentError` where the document does not match the published schema, `UnusableJobError` where
    it does but breaks a rule that a schema cannot state, each with every problem found; `PluginFaultError`
    where a method's option schema fails.
    """
    schemas = job_schemas(registry)
    findings = Findings(at_top=schemas.root.fields)
    units = document.get("units") if isinstance(document, dict) else None
    in_force: Units = "in" if units == "in" else "mm"
    with units_in_force(in_force):
        values = schemas.root.read(document, "", findings)
        if units not in ("in", "mm"):
            findings.beyond.clear()  # bounds cannot be judged without units
        if findings.schema or values is UNREAD:
            _beside(schemas, values, in_force, findings)
            findings.settle()
        job = JobBuilder(schemas, values, in_force, findings).job()
        check(job, registry, findings, values)
        check_built(job, values.get("built", ()), findings)
    findings.settle()
    return job


def _beside(schemas: JobSchemas, values: Any, units: Units, findings: Findings) -> None:
    """Note what is wrong, beyond the schema, with the cabinets that read well where other cabinets did not.

    Only where nothing but cabinets is astray: what a house lacks would be laid to the cabinets.
    """
    steps = [problem.pointer.split("/")[1:3] for problem in findings.schema]
    if any(at[:1] != ["cabinets"] or len(at) == 1 for at in steps):
        return
    astray = {int(at[1]) for at in steps}
    beyond = Findings()
    job = JobBuilder(schemas, values, units, beyond).job(astray)
    check(job, schemas.registry, beyond, values)
    for problem in beyond.beyond:
        if problem.pointer.startswith("/cabinets/") and problem not in findings.beyond:
            findings.beyond.append(problem)
