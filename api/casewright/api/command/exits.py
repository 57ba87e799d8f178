"""The exit codes of the command."""

DONE, STOPPED, UNUSABLE, FAILED = 0, 1, 2, 3
EXIT_CODES = """exit codes:
  0  done
  1  the plan holds a stop: do not cut
  2  the job cannot be read or used, or the command line is wrong
  3  the service or a plugin failed, or a part of casewright is not installed
"""
