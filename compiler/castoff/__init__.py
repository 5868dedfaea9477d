"""Castoff: a compiler for hand-knitting patterns.

The stages, in order, are the folders of this package; `pipeline.py` is the whole way through in one function.
"""

__version__ = "0.1.0"
