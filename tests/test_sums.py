"""No answer rests on how this Python adds floats: `sum` adds them otherwise from 3.12 on, `math.fsum` is exact in all.

Every view, drawing and paper of the examples is asked for while the built-in `sum` looks at what it is given. The
archive of all papers holds those in other forms.
"""

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
WATCHED = """
import builtins, json, sys
from pathlib import Path

plain, seen = sum, set()

def watched(items, /, start=0):
    items = list(items)
    code = sys._getframe(1).f_code
    own = code.co_filename.startswith(str(Path.cwd())) and "site-packages" not in code.co_filename
    if own and any(isinstance(item, float) for item in items):
        seen.add(f"{code.co_filename}, {code.co_name}")
    return plain(items, start)

builtins.sum = watched

from casewright.api.use.examples import examples
from casewright.api.web import create_app
from casewright.api.web.papers import PAPER_KINDS
from casewright.api.web.views import VIEWS

client, answered = create_app().test_client(), 0
for example in examples():
    papers = [paper.path for paper in PAPER_KINDS if paper.path.startswith(("drawings/", "papers"))]
    for path in [*(f"{view.name}?as={form}" for view in VIEWS for form in view.formats), *papers]:
        answered += client.post(f"/v1/{path}", json=example.job()).status_code == 200
print(json.dumps({"seen": sorted(seen), "answered": answered}))
"""


def test_no_floats_are_added_by_sum() -> None:
    done = subprocess.run([sys.executable, "-c", WATCHED], capture_output=True, text=True, check=True, cwd=ROOT)
    came = json.loads(done.stdout.splitlines()[-1])
    assert came["answered"] > 80, "too few views to show anything"
    assert came["seen"] == []
