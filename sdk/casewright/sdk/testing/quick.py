"""The contracts of everything a plugin registers, run at small counts without pytest, for `casewright plugin check`."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from warnings import catch_warnings, simplefilter

from casewright.sdk.loader import Registry
from casewright.sdk.testing.assemblies import DoorContract, MountingContract
from casewright.sdk.testing.contract import MethodContract
from casewright.sdk.testing.cures import CureContract
from casewright.sdk.testing.joints import BoxContract, JointContract
from casewright.sdk.testing.service import UNDER_TEST, planned, registry_with

CONTRACTS: dict[str, type[MethodContract]] = {
    "joints": JointContract,
    "boxes": BoxContract,
    "doors": DoorContract,
    "mountings": MountingContract,
}
JOBS, MEETINGS = 5, 15


@dataclass(frozen=True, slots=True)
class Trial:
    """One test of one method's contract: what it promises and, where it fails, what is wrong."""

    method: str
    promise: str
    wrong: str = ""


def trials(plugin: object) -> Iterator[Trial]:
    """Yield the outcome of every test of the contract of every method and generator that a plugin registers."""
    registry = registry_with(plugin)
    for family, contract in CONTRACTS.items():
        for method in getattr(registry, family):
            if registry.owner(family, method) == UNDER_TEST:
                body = {"method": method, "jobs": JOBS, "meetings": MEETINGS, "_held": registry}
                yield from _tried(contract, method, {"plugin": plugin, **body})
    for generator in registry.cures:
        if registry.owner("cures", generator) == UNDER_TEST:
            yield from _tried(CureContract, generator, {"plugin": plugin, "generator": generator})
    for style in registry.houses:
        if registry.owner("houses", style) == UNDER_TEST:
            yield _read(style, registry)


def _read(style: str, registry: Registry) -> Trial:
    """Read a house style's defaults as a job without cabinets makes the service do."""
    promise = "Its defaults read as the `house` of a job does."
    stuff = registry.catalogue.stuffs[0]
    sheet = {"kind": stuff.kind, "stuff": stuff.id, "thickness": 18}
    job = {
        "units": "mm",
        "materials": {"any": sheet},
        "house": {"style": style},
        "loose_parts": [{"id": "any", "material": "any", "length": 100, "width": 50}],
    }
    try:
        planned(job, registry)
    except Exception as error:
        return Trial(style, promise, _told(error))
    return Trial(style, promise)


def _tried(contract: type[MethodContract | CureContract], name: str, body: dict[str, Any]) -> Iterator[Trial]:
    """Yield the outcome of every test of a contract, with the attributes that its subclass is given."""
    made = type("Quick", (contract,), body)()
    for test_name in sorted(n for n in dir(made) if n.startswith("test_")):
        test = getattr(made, test_name)
        promise = (test.__doc__ or test_name).strip().partition("\n")[0]
        with catch_warnings():
            simplefilter("ignore")
            try:
                test()
            except Exception as error:
                yield Trial(name, promise, _told(error))
            else:
                yield Trial(name, promise)


def _told(error: Exception) -> str:
    words = str(error).strip().partition("\n")[0]
    return words if isinstance(error, AssertionError) and words else f"{type(error).__name__}: {words}"
