"""Cures: a stop in, changes of the job that may clear it out. Part of the public SDK."""

from casewright.sdk.methods.cures import Change, CureGenerator, Stop
from casewright.sdk.patching import patch_setting

__all__ = ["Change", "CureGenerator", "Stop", "patch_setting"]
