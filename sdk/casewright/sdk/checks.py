"""Checks of a shop's own: a finished design in, findings out. Part of the public SDK; see also `kit`."""

from casewright.sdk.methods.shops import Design, ExtraCheck

__all__ = ["Design", "ExtraCheck"]
