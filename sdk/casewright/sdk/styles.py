"""House styles: a shop's defaults under every cabinet of a job that names one. Part of the public SDK."""

from casewright.sdk.methods.shops import HouseStyle

__all__ = ["HouseStyle"]
