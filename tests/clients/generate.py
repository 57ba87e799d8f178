"""Clients generated from the OpenAPI document by six general tools, type-checked, and each made to plan the demo.

    python tests/clients/generate.py --work FOLDER      every tool; installs them into FOLDER by pip and npm

The document is linted first. Prints a table: the tool, and how many parts and stops its client planned. Exits 1 where
one does not pass, or plans otherwise than the others. `test_generated.py` runs the two that are quickest.
"""

import argparse
import json
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import casewright.openapi
from casewright.api.command import demo

OPENAPI = Path(next(iter(casewright.openapi.__path__))).resolve()
DOCUMENT, JOB = OPENAPI / "openapi.json", OPENAPI / "examples" / "repair-bay.json"
PIP = ("openapi-python-client", "datamodel-code-generator", "openapi-generator-cli", "mypy")
NPM = (
    "openapi-typescript", "openapi-fetch", "@hey-api/openapi-ts@0.95.0", "orval@7", "typescript@5", "@types/node@20",
    "@stoplight/spectral-cli", "@redocly/cli",
)  # fmt: skip
RULES = {
    "operation-description": "the summary and the answer's description say what a path does",
}
"""Rules of Spectral that are switched off, and why. Redocly's recommended rules all stand."""

PYTHON_CLIENT = """
import json, sys
from pathlib import Path
from opc.api.plans import plan
from opc.client import Client
from opc.models.job import Job
from opc.models.plan_view import PlanView

job = Job.from_dict(json.loads(Path(sys.argv[2]).read_text("utf-8")))
answer = plan.sync(client=Client(base_url=sys.argv[1]), body=job)
assert isinstance(answer, PlanView), answer
print(len(answer.parts), answer.stops)
"""
MODELS = """
import json, sys
from pathlib import Path
from typing import cast
from urllib.request import Request, urlopen
from models import Job, PlanView

job = cast(Job, json.loads(Path(sys.argv[2]).read_text("utf-8")))
job["title"] = "Repair bay"
request = Request(sys.argv[1] + "/v1/plan", json.dumps(job).encode(), {"Content-Type": "application/json"})
with urlopen(request) as answer:
    planned = cast(PlanView, json.load(answer))
widest: float = max(part["width"] for part in planned["parts"])
print(len(planned["parts"]), planned["stops"])
"""
TYPESCRIPT = {
    "openapi-typescript": """
import createClient from "openapi-fetch";
import type { paths } from "./types";
const client = createClient<paths>({ baseUrl: process.argv[2] });
const { data } = await client.POST("/v1/plan", { body: job as never });
""",
    "@hey-api/openapi-ts": """
import { plan } from "./hey/sdk.gen";
import { client } from "./hey/client.gen";
client.setConfig({ baseUrl: process.argv[2] });
const { data } = await plan({ body: job as never });
""",
    "orval": """
import { plan } from "./orval/client";
const known = globalThis.fetch;
globalThis.fetch = (url, how) => known(new URL(String(url), process.argv[2]), how);
const { data } = await plan(job as never) as { data: { parts: unknown[]; stops: number } };
""",
    "openapi-generator": """
import { Configuration, JobFromJSON, PlansApi } from "./oag/index";
const data = await new PlansApi(new Configuration({ basePath: process.argv[2] })).plan({ job: JobFromJSON(job) });
""",
}
_READ = """import { readFileSync } from "node:fs";
const job: unknown = JSON.parse(readFileSync(process.argv[3]!, "utf8"));
"""
_SAY = "if (!data) throw new Error('no plan');\nconsole.log(data.parts.length, data.stops);\n"

Run = Callable[..., str]


def runner(work: Path) -> Run:
    """Return a function that runs a command in a folder and gives its output, or raises with it."""

    def run(*command: str | Path, warn: bool = False) -> str:
        done = subprocess.run([str(c) for c in command], cwd=work, capture_output=True, text=True, check=False)
        if done.returncode:
            raise RuntimeError(f"{command[0]} failed:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
        return done.stdout + (done.stderr if warn else "")

    return run


def python_client(run: Run, work: Path, base: str, tools: Path) -> str:
    """Generate a client by openapi-python-client; return what it planned."""
    run(tools / "openapi-python-client", "generate", "--path", DOCUMENT, "--output-path", "opc", "--meta", "none",
        "--overwrite")  # fmt: skip
    (work / "use_client.py").write_text(PYTHON_CLIENT)
    run(tools / "mypy", "--strict", "--cache-dir", ".mypy-opc", "use_client.py")
    return run(tools / "python", "use_client.py", base, JOB)


def models(run: Run, work: Path, base: str, tools: Path) -> str:
    """Generate typed dictionaries by datamodel-code-generator; return what was planned with them.

    Its pydantic models plan the demo too, but give lengths defaults of another type than their own: mypy refuses them.
    """
    run(tools / "datamodel-codegen", "--input", DOCUMENT, "--input-file-type", "openapi", "--output", "models.py",
        "--output-model-type", "typing.TypedDict", "--target-python-version", "3.11", "--enum-field-as-literal", "all",
        "--disable-timestamp")  # fmt: skip
    (work / "use_models.py").write_text(MODELS)
    run(tools / "mypy", "--strict", "--cache-dir", ".mypy-models", "use_models.py")
    return run(tools / "python", "use_models.py", base, JOB)


def typescript(run: Run, work: Path, base: str) -> dict[str, str]:
    """Generate four clients in TypeScript; return what each planned."""
    tools = work / "node_modules" / ".bin"
    run(tools / "openapi-typescript", DOCUMENT, "-o", "types.d.ts")
    run(tools / "openapi-ts", "-i", DOCUMENT, "-o", "hey", "-c", "@hey-api/client-fetch")
    run(tools / "orval", "--input", DOCUMENT, "--output", "orval/client.ts", "--client", "fetch")
    java = work / "tools" / "bin" / "openapi-generator-cli"
    run(java, "generate", "-i", DOCUMENT, "-g", "typescript-fetch", "-o", "oag")
    options = {
        "strict": True, "target": "es2022", "module": "esnext", "moduleResolution": "bundler", "skipLibCheck": True,
        "lib": ["es2022", "dom", "dom.iterable"], "types": ["node"], "outDir": "made",
    }  # fmt: skip
    names = {tool: f"use-{number}" for number, tool in enumerate(TYPESCRIPT)}
    for tool, name in names.items():
        (work / f"{name}.ts").write_text(_READ + TYPESCRIPT[tool] + _SAY)
    files = [f"{name}.ts" for name in names.values()]
    (work / "tsconfig.json").write_text(json.dumps({"compilerOptions": options, "files": files}))
    run(tools / "tsc", "--noEmit")
    planned = {}
    for tool, name in names.items():
        run(tools / "esbuild", f"{name}.ts", "--bundle", "--platform=node", "--format=esm", f"--outfile={name}.mjs")
        planned[tool] = run("node", f"{name}.mjs", base, str(JOB))
    return planned


def linted(run: Run, work: Path) -> None:
    """Lint the document by Spectral and Redocly. Raises `RuntimeError` with what they find."""
    rules = "".join(f"  {rule}: off # {why}\n" for rule, why in RULES.items())
    (work / "spectral.yaml").write_text(f'extends: ["spectral:oas"]\nrules:\n{rules}')
    tools = work / "node_modules" / ".bin"
    run(tools / "spectral", "lint", DOCUMENT, "-r", "spectral.yaml", "--fail-severity", "hint")
    warned = run(tools / "redocly", "lint", DOCUMENT, "--format", "summary", warn=True)
    if "valid. 🎉" not in warned:
        raise RuntimeError(warned)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run every tool and print the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else "")
    parser.add_argument("--work", type=Path, required=True, help="folder to install and generate into")
    work: Path = parser.parse_args(arguments).work.resolve()
    work.mkdir(parents=True, exist_ok=True)
    run = runner(work)
    run(sys.executable, "-m", "venv", "tools")
    run(work / "tools" / "bin" / "pip", "install", "--quiet", *PIP)
    (work / "package.json").write_text('{"private": true, "type": "module"}')
    run("npm", "install", "--no-audit", "--no-fund", "esbuild", *NPM)
    linted(run, work)
    with demo.service() as base:
        tools = work / "tools" / "bin"
        planned = {
            "openapi-python-client": python_client(run, work, base, tools),
            "datamodel-code-generator": models(run, work, base, tools),
            **typescript(run, work, base),
        }
    print("Spectral and Redocly: clean\ntool                       parts and stops of the demo, type-checked")
    for tool, words in planned.items():
        print(f"{tool:26} {words.strip()}")
    return 0 if len({words.strip() for words in planned.values()}) == 1 else 1


if __name__ == "__main__":
    sys.exit(main())
