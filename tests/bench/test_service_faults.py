"""The service goes on while things go wrong round it; more requests: `service_faults.py`."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from service_faults import FAULTS, tried, wrong


def test_the_service_goes_on_whatever_goes_wrong_round_it(full):
    answers = tried(100 if full else 3)
    assert answers.keys() == FAULTS.keys()
    assert wrong(answers) == []
