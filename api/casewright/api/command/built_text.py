"""What follows from what is built, as plain text for a terminal."""

from collections.abc import Iterator, Mapping
from textwrap import wrap
from typing import Any

from casewright.api.command.bench_text import WIDTH

Document = Mapping[str, Any]

NOTHING = "The job says nothing of what is built: give sizes as they came out in its `built`."
AS_PLANNED = "All that is still to be made is as planned."


def built_lines(plan: Document) -> list[str]:
    """Return what comes out otherwise than planned, what no longer fits, and what is as it was."""
    built = plan["built"]
    if built is None:
        return [NOTHING]
    checks = [check for check in plan["checks"] if check["code"].startswith("built-")]
    lines = [line for check in checks for line in wrap(_of_what(check, built) + check["message"], WIDTH)]
    left = [change for change in built["changed"] if not change["built"]]
    made = [change for change in built["changed"] if change["built"]]
    for title, changes in (("Still to be made, to another size or with other cuts:", left), ("Built:", made)):
        if changes:
            lines += ["", title, *_rows(changes)]
    return lines if left or made or lines else [AS_PLANNED]


def _of_what(check: Document, built: Document) -> str:
    """Return what stands before a check: its level, or what went wrong with what."""
    repair = next((one for one in built["repairs"] if one["pointer"] == check["subject"]), None)
    if repair is None:
        return f"{check['level'].upper()}  "
    return f"{repair['cabinet']}/{repair['part']}, {repair['mistake'].replace('-', ' ')}: "


def _rows(changes: list[Document]) -> Iterator[str]:
    for change in changes:
        sizes = [f"{name} {size['text']} ({size['by']:+g})" for name, size in change["sizes"].items()]
        if change["cuts_changed"]:
            sizes.append("cuts")
        yield f"  {change['part']}: {', '.join(sizes)}"
