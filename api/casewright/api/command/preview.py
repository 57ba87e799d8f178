"""`casewright plugin preview`: what a plugin's methods make, drawn while they are written.

Each run imports the plugin anew in a process of its own: a page that watches shows the file as it was last saved.
"""

import argparse
import http.server
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from functools import partial
from html import escape
from pathlib import Path
from typing import Any

from casewright.api.command.exits import DONE, UNUSABLE
from casewright.api.command.plugins_named import NotFoundError, plugins_named, shown_name
from casewright.api.papers.drawing.png import to_png
from casewright.api.papers.drawing.shapes import Sheet
from casewright.api.papers.drawing.svg import to_svg
from casewright.api.use.method_pages import example_of, pictures_of
from casewright.sdk.errors import CasewrightError
from casewright.sdk.fields import Flaw
from casewright.sdk.loader import Registry, load
from casewright.sdk.places import raised_at
from marshmallow import ValidationError

Drawn = tuple[str, str, Mapping[str, Any]]
"""Family and id of a method that is drawn, and its options as a job writes them."""
LOOK = 0.5
"""Seconds between two looks at the file that is watched."""

PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>{title}</title>
<style>body{{font:16px sans-serif;margin:1em}}img{{width:100%;max-width:1100px;border:1px solid #999}}
pre{{background:#fee;padding:1em;white-space:pre-wrap}}</style>
<h1>{title}</h1>{body}
<script>let last=null;setInterval(async()=>{{try{{const t=await(await fetch("drawn.txt",{{cache:"no-store"}})).text();
if(last!==null&&t!==last)location.reload();last=t}}catch(e){{}}}},{wait})</script></html>
"""


def run(chosen: argparse.Namespace) -> int:
    """Draw, and go on drawing where asked."""
    if chosen.watch:
        return _watch(chosen)
    chosen.out.mkdir(parents=True, exist_ok=True)
    try:
        named = plugins_named(chosen.name)
    except NotFoundError as error:
        print(f"casewright plugin preview: {error}", file=sys.stderr)
        return UNUSABLE
    body, wrong = [], ""
    try:
        registry, names = _registry(named)
        options = _options(chosen.option)
        drawn = _drawn(registry, names, chosen.method, options)
        for name, sheet in _sheets(registry, drawn):
            (chosen.out / f"{name}.svg").write_text(to_svg(sheet), "utf-8")
            (chosen.out / f"{name}.png").write_bytes(to_png(sheet))
            print(chosen.out / f"{name}.svg")
            body.append(f'<h2>{escape(name)}</h2><img src="{escape(name)}.svg" alt="{escape(name)}">')
        for words in _stops(registry, drawn):
            print(words)
            body.append(f"<p>{escape(words)}</p>")
        wrong = "" if body else _nothing(registry, names, chosen.method)
    except ValidationError as error:
        wrong = "; ".join(f"option {name}: {_flaws(flaws)}" for name, flaws in error.messages_dict.items())
    except CasewrightError as error:
        wrong = str(error)
    except (Exception, SystemExit) as error:
        at = raised_at(error)
        wrong = f"{at + ': ' if at else ''}{type(error).__name__}: {error}"
    if wrong:
        print(f"casewright plugin preview: {wrong}", file=sys.stderr)
        body.insert(0, f"<pre>{escape(wrong)}</pre>")
    title = f"{shown_name(chosen.name)}, drawn"
    (chosen.out / "index.html").write_text(
        PAGE.format(title=escape(title), body="".join(body), wait=round(LOOK * 1000)), "utf-8"
    )
    (chosen.out / "drawn.txt").write_text(f"{time.time_ns()}\n", "utf-8")
    return UNUSABLE if wrong else DONE


def _registry(named: list[tuple[str, Any]]) -> tuple[Registry, frozenset[str]]:
    """Return the built-ins with the plugins, and the plugins' names. Raises what keeps one from loading."""
    names = frozenset(name for name, _ in named)
    built_in = load(discover="built-in")
    own = {plugin.name for plugin in built_in.plugins}
    if names <= own:
        return built_in, names
    registry = load(discover="built-in", extra=[(name, fetch()) for name, fetch in named])
    failed = [plugin.cause for plugin in registry.plugins if plugin.name in names and plugin.status != "loaded"]
    if failed:
        raise CasewrightError(failed[0])
    return registry, names


def _options(rows: list[str]) -> dict[str, Any]:
    """Return options as a job writes them: a number where the text is one, else text."""
    out: dict[str, Any] = {}
    for row in rows:
        name, _, text = row.partition("=")
        out[name] = int(text) if text.lstrip("-").isdigit() else {"true": True, "false": False}.get(text, text)
    return out


def _drawn(registry: Registry, names: frozenset[str], only: str | None, options: Mapping[str, Any]) -> list[Drawn]:
    """Return the methods of the plugins that are drawn, with those of the options that each has.

    Raises `CasewrightError` for an option that none of them has.
    """
    drawn = [one for one in _methods(registry, names) if only in (None, one[1])]
    fields = {one: getattr(registry, one[0])[one[1]].options().fields for one in drawn}
    strange = [name for name in options if drawn and not any(name in own for own in fields.values())]
    if strange:
        known = ", ".join(sorted({name for own in fields.values() for name in own})) or "none"
        raise CasewrightError(f"no method drawn has an option {strange[0]!r}; there are {known}")
    return [(*one, {name: value for name, value in options.items() if name in fields[one]}) for one in drawn]


def _sheets(registry: Registry, drawn: list[Drawn]) -> Iterator[tuple[str, Sheet]]:
    """Yield the drawings of each method."""
    for family, method, own in drawn:
        for name, sheet in pictures_of(registry, family, method, own):
            yield f"{method}-{name}", sheet


def _stops(registry: Registry, drawn: list[Drawn]) -> Iterator[str]:
    """Yield what stops the small cabinet that a door style or a mounting is drawn in."""
    for family, method, own in drawn:
        if family in ("doors", "mountings"):
            plan = example_of(registry, family, method, options=own).plan
            for check in plan.checks if plan else ():
                if check.level == "stop":
                    yield f"{method}: STOP in the cabinet that is drawn, {check.subject}: {check.message}"


def _methods(registry: Registry, names: frozenset[str]) -> list[tuple[str, str]]:
    """Return family and id of what the plugins have that can be drawn."""
    families = ("joints", "boxes", "doors", "mountings")
    every = [(family, method) for family in families for method in getattr(registry, family)]
    return [one for one in every if registry.owner(*one) in names]


def _nothing(registry: Registry, names: frozenset[str], only: str | None) -> str:
    """Return why nothing was drawn."""
    known = ", ".join(method for _, method in _methods(registry, names))
    if known:
        return f"There is no method {only!r} to draw; there are {known}."
    return "There is nothing to draw: no joint, door style, drawer corner or mounting."


def _flaws(flaws: list[Flaw | str]) -> str:
    return " ".join(f"{one.rule}. {one.fix}" if isinstance(one, Flaw) else one for one in flaws)


def _watch(chosen: argparse.Namespace) -> int:
    """Serve the page and draw in a process of its own whenever a watched file was saved. Ends at an interrupt."""
    chosen.out.mkdir(parents=True, exist_ok=True)
    handler = partial(_Quiet, directory=str(chosen.out))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", chosen.port), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    print(f"http://127.0.0.1:{server.server_address[1]}/ shows {chosen.name}; Ctrl-C ends it", flush=True)
    command = [sys.executable, "-c", "from casewright.api.command.cli import main; raise SystemExit(main())"]
    again = [*command, "plugin", "preview", chosen.name, "--out", str(chosen.out)]
    again += [word for row in chosen.option for word in ("--option", row)]
    again += ["--method", chosen.method] if chosen.method else []
    last: tuple[int, ...] = ()
    try:
        while True:
            saved = tuple(path.stat().st_mtime_ns for path in _watched(Path(chosen.name)))
            if saved != last:
                last = saved
                subprocess.run(again, check=False)
            time.sleep(LOOK)
    except KeyboardInterrupt:
        server.shutdown()
        return DONE


def _watched(path: Path) -> list[Path]:
    if path.is_dir():
        return sorted(file for file in path.rglob("*.py") if ".venv" not in file.parts)
    return [path] if path.is_file() else []


class _Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves files and writes no line for each."""

    def log_message(self, format: str, *args: Any) -> None:  # the base class names it
        """Write nothing."""
