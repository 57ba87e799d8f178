"""Laying a cabinet over its house: defaults < registered house style < the job's house < the cabinet.

Objects merge, lists and single values replace. Three things are wholes and replace as one: `space`, a method
together with its options when another method is picked, and the mass of the contents however it is given.
What was taken from below is recorded by the pointer of the topmost value taken, so the record stays short.
"""

from collections.abc import Mapping
from typing import Any

from casewright.api.job.picking import Picked, PickReader
from casewright.api.job.problems import Findings
from casewright.api.job.reading import UNREAD

WHOLE = frozenset({"space"})
CONTENTS = ("contents_kg", "contents_lb")
HOUSE, STYLE, DEFAULT = "house", "house-style", "default"

Origins = dict[str, str]


class Layer:
    """Values read from one place in the job, and which of them came from a layer further below."""

    def __init__(self, values: Mapping[str, Any], label: str, origins: Origins | None = None) -> None:
        self.values, self.label = values, label
        self.origins: Origins = {} if origins is None else origins

    def label_at(self, path: str) -> str:
        """Return where the value at a path below this layer's root came from."""
        while path:
            if path in self.origins:
                return self.origins[path]
            path = path.rpartition("/")[0]
        return self.label


class Merger:
    """Lays layers over one another; `picks` finds, by path, the reader that loads a method's options again."""

    def __init__(self, picks: Mapping[str, PickReader], findings: Findings) -> None:
        self.picks, self.findings = picks, findings

    def over(self, base: Layer, values: Mapping[str, Any], label: str) -> Layer:
        """Return `values` laid over `base`, with the record of what came from below."""
        origins: Origins = {}
        merged = self._objects(base, base.values, values, "", origins)
        return Layer(merged, label, origins)

    def _objects(
        self, base: Layer, low: Mapping[str, Any], high: Mapping[str, Any], path: str, origins: Origins
    ) -> dict[str, Any]:
        out = dict(high)
        for key, under in low.items():
            at = f"{path}/{key}"
            if key not in high:
                out[key] = under
                self._record(base, at, origins)
            elif isinstance(under, dict) and isinstance(high[key], dict) and key not in WHOLE:
                out[key] = self._objects(base, under, high[key], at, origins)
            elif isinstance(under, Picked) and isinstance(high[key], Picked):
                out[key] = self._picks(base, under, high[key], at, origins)
        return out

    def _picks(self, base: Layer, low: Picked, high: Picked, at: str, origins: Origins) -> Picked:
        below = dict(low.common)
        if any(key in high.common for key in CONTENTS):
            for key in CONTENTS:
                below.pop(key, None)
        common = self._objects(base, below, high.common, at, origins)
        if high.method is not None and high.method != low.method:
            return Picked(high.method, high.raw, high.options, common, high.pointer)
        if not high.raw:
            for key in low.raw:
                self._record(base, f"{at}/{key}", origins)
            return Picked(low.method, low.raw, low.options, common, high.pointer)
        raw = {**low.raw, **high.raw}
        for key in low.raw:
            if key not in high.raw:
                self._record(base, f"{at}/{key}", origins)
        assert high.method is not None  # options are read only beside a method
        options = self.picks[at].load(high.method, raw, high.pointer, self.findings)
        return Picked(high.method, raw, {} if options is UNREAD else options, common, high.pointer)

    def _record(self, base: Layer, at: str, origins: Origins) -> None:
        origins[at] = base.label_at(at)
        for path, label in base.origins.items():
            if path.startswith(at + "/") and label != origins[at]:
                origins[path] = label


def home(pointer: str, origins: Mapping[str, str]) -> str:
    """Return the place in the job document that a value of a cabinet was written, given its pointer."""
    path = pointer
    while path.count("/") > 2:
        label = origins.get(path)
        if label == STYLE:
            return "/house/style"
        if label == HOUSE:
            return "/house/" + pointer.split("/", 3)[3]
        if label is not None:
            return pointer
        path = path.rpartition("/")[0]
    return pointer
