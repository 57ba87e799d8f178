"""`python -m casewright`: the command line."""

import sys

from casewright.api.command.cli import main

sys.exit(main())
