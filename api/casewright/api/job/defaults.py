"""Filling in defaults under what a cabinet gives, and recording each that was filled in."""

from collections.abc import Mapping
from typing import Any

from casewright.api.job.house import DEFAULT, Origins
from casewright.api.job.picking import Picked, PickReader
from casewright.api.job.problems import Findings, advice
from casewright.api.job.reading import UNREAD, ObjectReader
from casewright.sdk import model

Values = Mapping[str, Any]


class Defaults:
    """Fills in what a job leaves out; `origins` takes the pointer of each value filled in."""

    def __init__(self, origins: Origins, findings: Findings) -> None:
        self.origins, self.findings = origins, findings

    def filled(self, reader: ObjectReader, values: Values, at: str) -> dict[str, Any]:
        """Return the values with the schema's defaults, noting what is needed and not there."""
        full = dict(values)
        for key, default in reader.defaults.items():
            if key not in full:
                full[key] = default() if callable(default) else default
                self.origins[f"{at}/{key}"] = DEFAULT
        for key in reader.needed:
            if key not in full:
                inside = "".join(f', in "{step}"' for step in at.split("/")[3:])
                fix = f'Add "{key}" to the cabinet or to "house"{inside}.'
                self.findings.missing(f"{at}/{key}", fix, beyond_schema=True)
        return full

    def part(self, reader: ObjectReader, values: Values, key: str, at: str) -> dict[str, Any]:
        """Return a nested object of defaults and what was given of it."""
        if key not in values:
            self.origins[f"{at}/{key}"] = DEFAULT
            return {k: d() if callable(d) else d for k, d in reader.defaults.items()}
        return self.filled(reader, values[key], f"{at}/{key}")

    def choice(self, reader: Any, values: Values, key: str, at: str) -> model.Choice | None:
        """Return a picked joint, or the default one."""
        assert isinstance(reader, PickReader)
        pointer = f"{at}/{key}"
        picked: Picked | None = values.get(key) or self._default_pick(reader, pointer)
        if picked is None or picked.method is None:
            return None
        return model.Choice(picked.method, picked.options, picked.pointer)

    def _default_pick(self, reader: PickReader, pointer: str) -> Picked | None:
        method = reader.field.default_method
        if method not in reader.field.branches:
            self.findings.missing(
                pointer, advice("", reader.field.branches, verb=f"Name a {reader.field.what},"), beyond_schema=True
            )
            return None
        self.origins[pointer] = DEFAULT
        options = reader.load(method, {}, pointer, self.findings)
        return None if options is UNREAD else Picked(method, {}, options, {}, pointer)

    def or_else(self, full: Values, key: str, default: Any, at: str) -> Any:
        """Return a value, or a default that depends on others."""
        if full.get(key) is not None:
            return full[key]
        self.origins[f"{at}/{key}"] = DEFAULT
        return default
