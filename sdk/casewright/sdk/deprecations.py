"""The one place that lists what this SDK will take away, and the one way plugins hear of it.

A name is deprecated in an additive version and goes no sooner than the next breaking one. Whoever deprecates
something adds a row to `DEPRECATED` and calls `deprecated` where the old name is still served; plugin authors see
the warning in their tests (the contract suite turns it into a failure) and in `casewright plugin check`.
"""

import warnings
from collections.abc import Mapping
from dataclasses import dataclass

from casewright.sdk.versions import Version

__all__ = ["DEPRECATED", "Deprecation", "SdkDeprecationWarning", "deprecated"]


class SdkDeprecationWarning(DeprecationWarning):
    """Something a plugin uses will go in a later breaking version of the SDK."""


@dataclass(frozen=True, slots=True)
class Deprecation:
    """What will go: since when it is deprecated, in which version it goes, and what to use instead."""

    name: str
    since: Version
    gone: Version
    instead: str

    def __str__(self) -> str:
        """Return it as one sentence for a plugin's author."""
        since, gone = (f"{v[0]}.{v[1]}" for v in (self.since, self.gone))
        return f"{self.name} is deprecated since SDK {since} and goes in SDK {gone}; use {self.instead}"


DEPRECATED: Mapping[str, Deprecation] = {}
"""By name as a plugin writes it. Empty: nothing of SDK 2 is going."""


def deprecated(name: str, table: Mapping[str, Deprecation] = DEPRECATED, *, stacklevel: int = 2) -> None:
    """Warn the caller's caller that `name` will go. Raises `KeyError` where no row lists it."""
    warnings.warn(str(table[name]), SdkDeprecationWarning, stacklevel=stacklevel + 1)
