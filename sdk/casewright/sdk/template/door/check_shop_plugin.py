"""The contract every door style keeps."""

from typing import ClassVar

from casewright.sdk.testing import DoorContract

import shop_plugin


class TestShopPlugin(DoorContract):
    """Schema, determinism and dry fit over generated jobs."""

    plugin: ClassVar[object] = shop_plugin
    method: ClassVar[str] = "shop-plugin"
