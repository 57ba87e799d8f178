"""Laying out a cabinet: parts, joints, doors, drawers and hardware, each stage from the ones before."""
