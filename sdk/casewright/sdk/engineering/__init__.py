"""The equations: one module a subject, one pure function an equation.

Floats with the unit in the name; each docstring names document, edition and clause; each limit of validity is
enforced in code by `limits.OutsideLimits`. Import the subject modules; nothing is re-exported here.
"""
