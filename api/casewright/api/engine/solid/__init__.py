"""Exact room of parts on the nanometre grid."""
