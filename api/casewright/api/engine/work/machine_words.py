"""How a machine is spoken of: what its cut is called, what measures the distance, how a sentence ends with it."""

from collections.abc import Mapping

from casewright.api.engine.work.machines import ACROSS
from casewright.sdk.model import Action, Machine, Operation

__all__ = ["is_to_width", "stopped_by", "with_machine"]

WITH: Mapping[Machine, str] = {
    Machine.ROUTER: "with the router",
    Machine.DRILL: "with the drill",
    Machine.LOOSE_TENON_MACHINE: "with the loose-tenon machine",
    Machine.BISCUIT_MACHINE: "with the biscuit machine",
    Machine.JIGSAW: "with the jigsaw",
    Machine.TRACK_SAW: "with the track saw",
    Machine.BY_HAND: "by hand",
}
"""How a machine that goes to the work is spoken of; the work goes to all others."""


def is_to_width(operation: Operation) -> bool:
    """Return whether a cut along the grain is made at a saw that cuts to a stop: short pieces cut to their width."""
    return operation.action is Action.RIP and operation.machine in ACROSS


def stopped_by(operation: Operation) -> str:
    """Return what measures the distance of a cut that parts a piece: a fence, a stop or a track."""
    if operation.machine in ACROSS:
        return "stop"
    return "track" if operation.machine is Machine.TRACK_SAW else "fence"


def with_machine(machine: Machine) -> str:
    """Return a machine as a sentence ends with it."""
    return WITH.get(machine, f"on the {machine.replace('-', ' ')}")
