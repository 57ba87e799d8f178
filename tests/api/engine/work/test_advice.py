"""What a method advises to cut with comes before the usual machines, where the shop has it and it reaches."""

import pytest
from casewright.api.engine import make_plan
from casewright.api.job.document import read_job
from casewright.sdk.model import Action, Machine
from casewright.sdk.testing import registry_with
from modules import TEMPLATE, module_at

HOUSED = {"fixed_joint": {"method": "shop-plugin"}}
SHELF = {"space": {"fixed_shelves": 1}}


def template(machines):
    """Return a registry with the plugin template, its joint method advising machines."""
    module = module_at(TEMPLATE)
    module.ShopPlugin.machines = machines
    return registry_with(module)


def housing(document, advised, **shop):
    using = template(advised)
    plan = make_plan(read_job(document(SHELF, HOUSED, shop={"fit": 0, **shop}), using), using)
    wrong = [check for check in plan.checks if check.code in ("no-machine", "work-not-carried-out")]
    assert not [check for check in wrong if "shelf" in check.subject]
    (cut,) = [
        step for step in plan.steps if any("housing for shelf" in piece.cuts[0] for piece in step.on if piece.cuts)
    ]
    return cut


# Without advice a groove is sawn (common practice, no source).
@pytest.mark.parametrize(
    ("machines", "owned", "chosen"),
    [
        ({}, [], Machine.TABLE_SAW),
        ({Action.GROOVE: (Machine.ROUTER,)}, [], Machine.ROUTER),
        ({Action.RABBET: (Machine.ROUTER,)}, [], Machine.TABLE_SAW),
        ({Action.GROOVE: (Machine.BAND_SAW, Machine.ROUTER)}, ["table-saw", "crosscut-sled", "router"], Machine.ROUTER),
        ({Action.GROOVE: (Machine.ROUTER,)}, ["table-saw", "crosscut-sled"], Machine.TABLE_SAW),
        ({Action.GROOVE: (Machine.BY_HAND,)}, ["track-saw"], Machine.BY_HAND),
    ],
)
def test_the_first_machine_advised_that_the_shop_has_is_used(document, machines, owned, chosen):
    cut = housing(document, machines, machines=owned)
    assert cut.machine is chosen
    where = "into the inside face" if chosen in (Machine.ROUTER, Machine.BY_HAND) else "inside face down"
    assert where in cut.do


def test_a_table_saw_advised_beyond_its_reach_is_passed_over(document):
    # The shelf stands in the middle of sides 900 high, more than 300 from either end.
    assert housing(document, {Action.GROOVE: (Machine.TABLE_SAW,)}, rip_capacity=300).machine is not Machine.TABLE_SAW


@pytest.mark.parametrize("family", ["doors", "mountings"])
def test_doors_and_mountings_advise_too(document, monkeypatch, registry, family):
    door = {"front": "door"}
    doors = {"style": "cope-and-stick", "material": "frame", "panel": "thin"}
    method = registry.doors["cope-and-stick"] if family == "doors" else registry.mountings["bevel-cleat"]
    action = Action.TENON if family == "doors" else Action.BEVEL
    monkeypatch.setattr(type(method), "machines", {action: (Machine.BY_HAND,)}, raising=False)
    cabinet = {"space": door, "doors": doors, "mounting": {"method": "bevel-cleat", "contents_kg": 5}}
    plan = make_plan(read_job(document(cabinet), registry), registry)
    assert {step.machine for step in plan.steps if step.action is action} == {Machine.BY_HAND}
