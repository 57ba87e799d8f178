"""The commands that plan no job by themselves: the service, the demo, the OpenAPI document, migration, completion."""

import argparse
import sys

from casewright.api.command.exits import DONE, FAILED
from casewright.api.command.inputs import json_bytes


def serve(chosen: argparse.Namespace) -> int:
    """Serve until a signal ends it."""
    from casewright.api.web.serve import serve as serve_on

    given = {"host": chosen.host, "port": chosen.port, "workers": chosen.workers}
    serve_on({name: value for name, value in given.items() if value is not None})
    return DONE


def demo(chosen: argparse.Namespace) -> int:
    """Plan the example job by the real service."""
    from casewright.api.command.demo import DemoError, run

    try:
        return run(chosen.out, (chosen.reasons, chosen.checks, chosen.steps))
    except DemoError as error:
        print(f"casewright demo: {error}", file=sys.stderr)
        return FAILED


def migrate(chosen: argparse.Namespace) -> int:
    """Print a job as it is written today, and what was changed in it."""
    import json

    from casewright.api.job.migration import migrated
    from casewright.api.job.strict_json import read_json
    from casewright.api.use.loading import installed

    made = migrated(read_json(json_bytes(chosen.job)), installed())
    print(json.dumps(made.document, indent=2, ensure_ascii=False))
    for place in made.taken_out:
        print(f"casewright: {place}: null taken out; it means nothing there", file=sys.stderr)
    for place, name in made.renamed.items():
        print(f"casewright: {place}: is {name} now", file=sys.stderr)
    return DONE


def completion(chosen: argparse.Namespace) -> int:
    """Print the completion of a shell."""
    from casewright.api.command.completion import completion as script

    print(script(chosen.commands, chosen.shell), end="")
    return DONE


def openapi(chosen: argparse.Namespace) -> int:
    """Print or write the OpenAPI document, and the typed dictionaries where they are wanted."""
    from casewright.api.web.openapi import openapi_text
    from casewright.sdk.loader import load

    text = openapi_text(load(discover="built-in"))
    if chosen.types is not None:
        import json

        from casewright.api.wire.typed import typed_source

        chosen.types.write_text(typed_source(json.loads(text)), encoding="utf-8")
        if chosen.out is None:
            return DONE
    if chosen.out is None:
        sys.stdout.write(text)
    else:
        chosen.out.write_text(text, encoding="utf-8")
    return DONE
