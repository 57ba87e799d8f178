"""The contract every joint method keeps, and what is this joint's own."""

from typing import ClassVar

from casewright.sdk.kit import mm
from casewright.sdk.testing import JointContract

import shop_plugin


class TestShopPlugin(JointContract):
    """Schema, determinism, purity, bounds, exact sums, dry fit over generated jobs, threads, refusals."""

    plugin: ClassVar[object] = shop_plugin
    method: ClassVar[str] = "shop-plugin"

    def test_the_guest_grows_by_the_depth_of_the_housing(self) -> None:
        """A case worked by hand: 5 mm of housing make the guest 5 mm longer."""
        meeting = self.a_meeting("tee")
        assert self.answer(meeting, {"depth": "5 mm"}).growth == mm(5)
