"""Every hook, in one flat file. Hooks only register typed objects; all computing is plain method calls.

An implementation takes no parameters. The job picks methods by id, so the order in which plugins answer
never decides a number.
"""

from collections.abc import Sequence

import pluggy
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import CureGenerator, DoorStyle, ExtraCheck, HouseStyle, JointMethod, MountingMethod

PROJECT = "casewright"
GROUP = "casewright.plugins"
"""Entry point group in which a distribution names its plugin modules."""

hookspec = pluggy.HookspecMarker(PROJECT)
hookimpl = pluggy.HookimplMarker(PROJECT)


@hookspec
def casewright_joint_methods() -> Sequence[JointMethod]:  # type: ignore[empty-body]
    """Return the joint methods this plugin adds (case, panel and frame joints)."""


@hookspec
def casewright_door_styles() -> Sequence[DoorStyle]:  # type: ignore[empty-body]
    """Return the door styles this plugin adds."""


@hookspec
def casewright_box_methods() -> Sequence[JointMethod]:  # type: ignore[empty-body]
    """Return the corner joints for drawer boxes this plugin adds: joint methods that do `box` meetings."""


@hookspec
def casewright_mountings() -> Sequence[MountingMethod]:  # type: ignore[empty-body]
    """Return the ways to hang a cabinet this plugin adds."""


@hookspec
def casewright_catalogue() -> Catalogue:  # type: ignore[empty-body]
    """Return the stuffs, hinges, pulls and fasteners this plugin adds."""


@hookspec
def casewright_house_styles() -> Sequence[HouseStyle]:  # type: ignore[empty-body]
    """Return the house styles this plugin adds: defaults merged under every cabinet that names one."""


@hookspec
def casewright_checks() -> Sequence[ExtraCheck]:  # type: ignore[empty-body]
    """Return the extra checks this plugin adds."""


@hookspec
def casewright_cures() -> Sequence[CureGenerator]:  # type: ignore[empty-body]
    """Return what proposes changes that may clear stops."""
