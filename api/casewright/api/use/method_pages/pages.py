"""The pages in Markdown: what a method takes, makes and rests on, drawn, with a job that uses it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.use.method_pages.catalogue import catalogue_families, catalogue_text
from casewright.api.use.method_pages.examples import PLACES, ExampleJob, example_of
from casewright.api.use.method_pages.options import option_rows
from casewright.api.use.method_pages.pictures import NothingDrawnError, fitted, pictures_of
from casewright.api.use.method_pages.tables import cell, compact_json, source_table, table
from casewright.sdk.loader import Registry
from casewright.sdk.methods import CureGenerator, ExtraCheck, HouseStyle, JointMethod, Method

FAMILIES: Mapping[str, str] = {
    "joints": "Joints",
    "doors": "Door styles",
    "boxes": "Drawer corners",
    "mountings": "Mountings",
    "houses": "House styles",
    "checks": "Checks",
    "cures": "Generators of cures",
    "catalogue": "Catalogue",
}
"""Families that have pages, in the order they are listed, each with its heading."""

_ONE = {"joints": "joint", "doors": "door style", "boxes": "drawer corner", "mountings": "mounting",
        "houses": "house style", "checks": "check", "cures": "generator of cures"}  # fmt: skip
_KINDS = {
    "corner": "top or bottom with a side",
    "tee": "a fixed shelf or divider with what it ends at",
    "panel": "a back or a bottom with what is round it",
    "frame": "a rail's end with a stile",
    "box": "a corner of a drawer",
}


@dataclass(frozen=True, slots=True)
class MethodPage:
    """A page: its Markdown, and its pictures by the name that the Markdown links to."""

    family: str
    id: str
    text: str
    pictures: Mapping[str, Sheet]


def page_path(family: str, entry: str) -> str:
    """Return where a page stands under the page of all methods: `joints/dowel`."""
    return f"{family}/{entry}"


def every_page(registry: Registry) -> Iterator[tuple[str, str, str]]:
    """Yield family, id and title of everything that has a page."""
    for family in FAMILIES:
        if family == "catalogue":
            for name in catalogue_families(registry.catalogue):
                yield family, name, name.replace("_", " ").capitalize()
        else:
            for entry in getattr(registry, family).values():
                yield family, entry.id, entry.title


def index_text(registry: Registry) -> str:
    """Return the page that lists all others, which stand under `methods/`."""
    lines = [
        "# Methods, styles, checks and catalogue",
        "",
        "What the plugins that are loaded bring, the built-in ones and others. A job picks each by its id. The same, "
        "with the JSON Schema of every option, is answered by `/v1/methods` and `/v1/materials`.",
    ]
    rows: dict[str, list[list[str]]] = {family: [] for family in FAMILIES}
    for family, entry, title in every_page(registry):
        link = f"[{cell(title)}](methods/{page_path(family, entry)}.md)"
        if family == "catalogue":
            rows[family].append([link, str(len(getattr(registry.catalogue, entry)))])
            continue
        method, plugin = getattr(registry, family)[entry], registry.owner(family, entry)
        does = [", ".join(sorted(method.does))] if isinstance(method, JointMethod) else []
        rows[family].append([link, f"`{entry}`", *does, plugin])
    for family, heading in FAMILIES.items():
        heads = ["family", "entries"] if family == "catalogue" else ["what", "id", "plugin"]
        heads[2:2] = ["meetings"] if family in ("joints", "boxes") else []
        lines += ["", f"## {heading}", "", *(table(heads, rows[family]) if rows[family] else ["None is loaded."])]
    return "\n".join(lines) + "\n"


def page_of(registry: Registry, family: str, entry: str) -> MethodPage:
    """Return the page of one method, style, check, generator or family of the catalogue. Raises `KeyError`."""
    if family == "catalogue":
        return MethodPage(family, entry, catalogue_text(registry, entry), {})
    if family not in FAMILIES:
        raise KeyError(family)
    one = getattr(registry, family)[entry]
    lines = [f"# {one.title}", "", f"`{one.id}`, a {_ONE[family]} of the plugin `{registry.owner(family, entry)}`."]
    about = " ".join((type(one).__doc__ or "").split()) if not isinstance(one, HouseStyle) else ""
    lines += ["", about] if about else []
    pictures: dict[str, Sheet] = {}
    if isinstance(one, Method):
        pictures, more = _of_method(registry, family, one)
        lines += more
    elif isinstance(one, HouseStyle):
        lines += _of_style(one)
    elif isinstance(one, CureGenerator):
        lines += _of_generator(one)
    elif isinstance(one, ExtraCheck):
        lines += ["", "It looks over every plan; no job names it."]
    lines += ["", "[All methods](../../methods.md)"]
    return MethodPage(family, entry, "\n".join(lines) + "\n", pictures)


def _of_method(registry: Registry, family: str, method: Method) -> tuple[dict[str, Sheet], list[str]]:
    """Return the pictures of a method and the lines of its page under the heading."""
    kinds = sorted(method.does) if isinstance(method, JointMethod) else [family]
    examples = {kind: example_of(registry, family, method.id, None if kind == family else kind) for kind in kinds}  # type: ignore[arg-type]
    lines = ["", "## Where a job names it", ""]
    for kind in kinds:
        words = f" ({_KINDS[kind]})" if kind in _KINDS else ""
        lines.append(f"- {' or '.join(f'`{place}`' for place in PLACES[kind])}{words}")
    rows = option_rows(method.options)
    lines += ["", "## Options", ""]
    lines += table(["option", "takes", "default", "what it is"], rows) if rows else ["It has none of its own."]
    pictures, why = _pictures(registry, family, method.id)
    lines += ["", "## Drawn", "", "With the usual options.", ""] if pictures else ["", "## Drawn", ""]
    lines += [f"![{method.title}, {name}]({method.id}/{name}.svg)\n" for name in pictures]
    lines += [f"Not drawn: {why}"] if why else []
    lines += _needs(method)
    lines += ["", "## Sources", "", *_sources(registry, family, method, examples)]
    for kind, example in examples.items():
        lines += ["", f"## A job that uses it{'' if kind == family else f' at a {kind}'}", "", *_job_lines(example)]
    return pictures, lines


def _pictures(registry: Registry, family: str, method: str) -> tuple[dict[str, Sheet], str]:
    """Return the pictures that can be drawn, and why no more can."""
    pictures: dict[str, Sheet] = {}
    try:
        pictures.update(pictures_of(registry, family, method))
    except NothingDrawnError as error:
        return pictures, str(error)
    except Exception as error:  # a plugin's fault spoils its own page and no other
        return pictures, f"{type(error).__name__}: {error}"
    return pictures, ""


def _needs(method: Method) -> list[str]:
    """Return what a method asks of the shop: kinds of cut, machines it advises."""
    lines = []
    if isinstance(method, JointMethod) and method.cuts:
        lines.append(f"- cuts: {', '.join(sorted(method.cuts))}")
    for action, machines in method.machines.items():
        lines.append(f"- {action} best with: {', '.join(machines)}")
    if method.supplies:
        lines.append(f"- hardware of its own: {', '.join(f'`{one}`' for one in sorted(method.supplies))}")
    return ["", "## What it asks of the shop", "", *lines] if lines else []


def _sources(registry: Registry, family: str, method: Method, examples: Mapping[str, ExampleJob]) -> list[str]:
    """Return the documents that a method names, and those that what it finds cites."""
    codes = dict.fromkeys(method.sources)
    if isinstance(method, JointMethod):
        for kind in sorted(method.does):
            try:
                _, fit = fitted(registry, family, method, kind)
            except Exception:
                continue
            codes |= dict.fromkeys(finding.source for finding in fit.findings)
    for example in examples.values():
        if family in ("doors", "mountings") and example.plan is not None:
            about = [leaf.id for leaf in example.plan.doors] if family == "doors" else ["bay"]
            codes |= dict.fromkeys(c.finding.source for c in example.plan.checks if c.subject in about)
    return source_table(registry, codes) or ["It names none."]


def _job_lines(example: ExampleJob) -> list[str]:
    lines = ["```json", compact_json(example.job), "```", ""]
    if example.plan is None:
        return [*lines, f"This job is refused: {example.refused}"]
    if example.stops:
        return [*lines, f"It is planned, and says stop: {'; '.join(example.stops)}"]
    parts, joints = len(example.plan.parts), len(example.plan.joints)
    return [*lines, f"It is planned without a stop: {parts} parts, {joints} joints."]


def _of_style(style: HouseStyle) -> list[str]:
    house = compact_json({"house": {"style": style.id}})
    where = f"`{house}`; what a cabinet or the job's own `house` says goes before it."
    return [
        *("", "## Where a job names it", "", where),
        *("", "## What a house then has", "", "```json", compact_json(dict(style.defaults)), "```"),
    ]


def _of_generator(generator: CureGenerator) -> list[str]:
    rows = [[f"`{code}`", cell(generator.why_none.get(code, ""))] for code in sorted(generator.codes)]
    return ["", "## Stops it knows", "", *table(["code", "why there may be no change"], rows)]
