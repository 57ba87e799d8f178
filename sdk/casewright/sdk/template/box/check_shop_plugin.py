"""The contract every drawer corner keeps."""

from typing import ClassVar

from casewright.sdk.kit import mm
from casewright.sdk.testing import BoxContract

import shop_plugin


class TestShopPlugin(BoxContract):
    """Schema, determinism, purity, bounds, exact sums, dry fit over generated jobs, threads, refusals."""

    plugin: ClassVar[object] = shop_plugin
    method: ClassVar[str] = "shop-plugin"

    def test_the_end_grows_by_the_depth_of_the_rabbet(self) -> None:
        """A case worked by hand: half of an 18 mm side."""
        assert self.answer(self.a_meeting("box")).growth == mm(9)
