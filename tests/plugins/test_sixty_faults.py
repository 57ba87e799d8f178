"""Sixty mistakes made by hand in sound plugins: each is told once, with file, line, rule and fix.

Every mistake is one change of a template's text. Those that a plugin fails to load for are told at once, the others by
the contracts that `plugin check` tries.
"""

import sys
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from casewright.sdk.loader import cause_of, load
from casewright.sdk.testing.quick import Counts, Trial, trials
from modules import module_at

TEMPLATES = Path(__file__).parents[2] / "sdk" / "casewright" / "sdk" / "template"
NUMBER = count(1)
FEW = Counts(jobs=1, meetings=4, seconds=1)

HOOK = "def casewright_joint_methods() -> Sequence[JointMethod]:"
FAULTS: dict[str, list[tuple[str, str, str]]] = {
    "box": [("seat=depth,", "seat=0,", "the guest enters its host by")],
    "joint": [
        ("mm(1),", "mm(1)),", "IndentationError"),
        ("from casewright.sdk.joints import Fit", "from casewright.sdk.joinery import said, Fit", "/docs/migration"),
        ("from casewright.sdk.joints import Fit", "from no_such_module import Fit", "no_such_module"),
        ("SDK = ((2, 0), (3, 0))", "SDK = 1", "/docs/migration says what changed"),
        ("SDK = ((2, 0), (3, 0))", "SDK = ((3, 0), (4, 0))", "written for SDK 3.0"),
        ("SDK = ((2, 0), (3, 0))", 'SDK = "2"', "write 2, or a range"),
        ("def casewright_joint_methods", "def casewright_joint_method", "perhaps casewright_joint_methods"),
        ("def casewright_joint_methods()", "def casewright_joint_methods(plan=None)", "takes parameters"),
        ("@hookimpl\n", "", "not decorated with @hookimpl"),
        ("return (ShopPlugin(),)", "return ShopPlugin()", "casewright_joint_methods answered ShopPlugin"),
        ("return (ShopPlugin(),)", "return (ShopPlugin,)", "write ShopPlugin()"),
        ("return (ShopPlugin(),)", 'return ("shop-plugin",)', "is not a JointMethod"),
        ("return (ShopPlugin(),)", "return (1 // 0,)", "casewright_joint_methods raised ZeroDivisionError"),
        ("return (ShopPlugin(),)", "return (ShopPlugin(), ShopPlugin())", "is taken by plugin"),
        ('id: ClassVar[str] = "shop-plugin"', 'id: ClassVar[str] = "rabbet"', "is taken by plugin joint-rabbet"),
        ('id: ClassVar[str] = "shop-plugin"', 'id: ClassVar[str] = "shop plugin"', "letters, digits"),
        ('title: ClassVar[str] = "Shop plugin"', 'title: ClassVar[str] = ""', "title must be text"),
        ('frozenset({"corner", "tee"})', "frozenset()", "names no kind of meeting"),
        ('frozenset({"corner", "tee"})', 'frozenset({"knee"})', "kinds of meeting are"),
        ("options = ShopPluginOptions", 'options = {"depth": 6}', "not a schema class"),
        ("depth = Length(", "depth = __import__('marshmallow').fields.Integer() or Length(", "use a field of"),
        ("        about=", "        metadata={'description': 1} or ", "has a description"),
        ("        about=", "        metadata=", "metadata that is no mapping"),
        ("load_default=None,", "load_default=6,", "write mm(6) if 6 mm were meant"),
        ("load_default=None,", "required=True,", "give each a default"),
        ("load_default=None,", "load_default=mm(40),", "has a default beyond its bounds: 40 mm"),
        ("least=mm(1),", "least=1,", "has the least 1 nm; write mm(1) if 1 mm were meant"),
        ("most=mm(12),", "most=mm(0),", "takes nothing"),
        ("    depth = Length(", "    method = Length(about='x')\n    depth = Length(", "by which a job names it"),
        ('    does: ClassVar[frozenset[MeetingKind]] = frozenset({"corner", "tee"})\n', "", "does must name kinds"),
        ("entry=-3", "entry=5", "has the entry 5"),
        ("growth=depth,", "growth=depth / 1,", "whole nm"),
        ("growth=depth,", "growth=-depth,", "the reason sums to"),
        ("growth=depth,", "growth=depth, clearance=-1,", "below zero"),
        ("seat=depth,", "seat=depth // 2,", "the guest enters its host by"),
        ("seat=depth,", "seat=depth, press=2,", ""),
        ("host=(cut,),", "host=[cut],", "not a tuple"),
        ("host=(cut,),", "", ""),
        ("host=(cut,),", "host=(cut,), guest=(cut,),", "reaches outside"),
        ("guest_thickness + meeting.fit, depth", "guest_thickness + mm(2), depth", "wider than what sits"),
        ("meeting.guest_thickness + meeting.fit, depth", "meeting.guest_thickness, 6", "write mm(6)"),
        ("meeting.guest_thickness + meeting.fit, depth", "meeting.guest_thickness, depth / 1", "whole nm"),
        ("meeting.guest_thickness + meeting.fit, depth", "0, depth", "without volume"),
        ("x0, x1 = meeting.all_along", "x0, x1 = -mm(5000), meeting.run", "reaches outside"),
        ("x0, x1 = meeting.all_along", "x0, x1 = 0, meeting.length", "AttributeError"),
        ("x0, x1 = meeting.all_along", 'options["depth"] = 1\n        x0, x1 = meeting.all_along', "options"),
        ("x0, x1 = meeting", "while True:\n            pass\n        x0, x1 = meeting", "did not answer"),
        ("x0, x1 = meeting.all_along", "raise SystemExit(3)\n        x0, x1 = meeting.all_along", "SystemExit"),
        ("why=(Term(\"housing depth\", depth),),", "why=(),", "the reason sums to"),
        ("why=(Term(\"housing depth\", depth),),", 'why=(Term("", depth),),', "no label"),
        ("Bound(depth, source=COMMON)", 'Bound(mm(900), source="hearsay")', "cites 'hearsay'"),
        ("area_mm2((meeting.run", "-area_mm2((meeting.run", "glue area"),
        ("return Fit(", "return None and Fit(", "not a Fit"),
    ],
    "door": [
        ("thickness=t)", "thickness=t - mm(1))", "thickness() of its style answered"),
        ("0, 0, 0, request.width, t", "mm(3), 0, 0, request.width, t", "sums to"),
        ('Land(part="slab"', 'Land(part="stile"', "no part of the door"),
        ("inner_edge=request.width", "inner_edge=2 * request.width", "inner_edge of the left hinge land is"),
        ("material=request.frame.key,", 'material="oak",', "the job has not"),
    ],
    "mounting": [
        ("bevel_deg=None", "bevel_deg=45.0", "no bevel is cut along 'rail'"),
        ("packed=packed,", "packed=0,", "but the parts leave"),
        ("cautions=CAUTIONS,", "", "states no cautions"),
        ("hook_z=middle", "hook_z=0", "but the wall strip's wood is from"),
        ('role="strip"', 'role="strap"', "role of part 'rail' is 'strap'; perhaps"),
        (
            '(JointSpec("glued", "strip", request.top_key, "rail", 3, 0, 0, glued_mm2),)',
            "()",
            "nothing says what holds it",
        ),
    ],
    "catalogue": [
        ("spacing=mm(96)", "spacing=96", "write mm(96) if mm were meant"),
        ("mass_kg=0.04", 'mass_kg="heavy"', "which is not a number"),
        ("NOTE.code),)", '"hearsay"),)', "cite 'hearsay'"),
    ],
    "check": [
        ('"caution", message', '"worry", message', "level 'worry'"),
        ("(part.id, Finding", '(part.id + "?", Finding', "which is nothing of the design"),
        ("LONGEST, LENGTH, COMMON", 'LONGEST, "mm", COMMON', "a length in nm has the unit LENGTH"),
        ("return tuple(", "tuple(", "find() answered NoneType"),
        ("for part in design.parts", "for part in design.planks", "AttributeError"),
        ("message = ", "object.__setattr__(design.job, 'title', 'ours')\n        message = ", "changed its design"),
    ],
    "style": [
        ('"2 mm"', "2", "defaults['case']['shelf_setback'] is 2, a length by the units of each job"),
        ('{"method": "rabbet"}', '{"method": "rabit"}', "defaults['case']['corner']['method'] cannot be used"),
        ("defaults={", 'defaults=5 and {"a": {1}} or {', "not JSON"),
    ],
}  # fmt: skip
CASES = [(kind, *row) for kind, rows in FAULTS.items() for row in rows]


@pytest.fixture
def written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Give a file of a name of its own, so that none is taken for another."""
    path = tmp_path / f"faulty_{next(NUMBER)}.py"
    yield path
    sys.modules.pop(path.stem, None)


def problems(path: Path) -> list[Trial]:
    """Return what is told of a plugin, as `plugin check` tells it."""
    fix = "Mend that line."
    try:
        module = module_at(path)
    except Exception as error:
        return [Trial("plugin", "It imports.", cause_of(error), cause_of(error).partition(": ")[0], fix)]
    record = load(discover="built-in", extra=[("faulty", module)], seconds=3).plugins[-1]
    if record.status != "loaded":
        return [Trial("plugin", "It loads.", record.cause, record.cause.partition(": ")[0], fix)]
    return [trial for trial in trials(module, FEW) if trial.wrong]


def test_there_are_sixty() -> None:
    assert len(CASES) >= 60


@pytest.mark.parametrize("kind", FAULTS)
def test_the_template_itself_has_no_problem(written: Path, kind: str) -> None:
    written.write_text((TEMPLATES / kind / "shop_plugin.py").read_text("utf-8"), "utf-8")
    assert problems(written) == []


@pytest.mark.parametrize(("kind", "old", "new", "words"), CASES, ids=[f"{c[0]}-{i}" for i, c in enumerate(CASES)])
def test_each_mistake_is_told_once_with_its_place(written: Path, kind: str, old: str, new: str, words: str) -> None:
    text = (TEMPLATES / kind / "shop_plugin.py").read_text("utf-8")
    assert old in text, "the template has changed"
    written.write_text(text.replace(old, new, 1), "utf-8")
    reports = problems(written)
    assert len(reports) == 1, reports
    (one,) = reports
    assert words in one.wrong
    assert one.at.startswith(written.name), one
    assert one.promise
    assert one.fix
