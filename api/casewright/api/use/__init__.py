"""The one path: read a job, plan it, write it; and what is built on plans: comparisons."""
