"""Teardown, refurbishment and proved reassembly of process tools."""

__version__ = "0.1.0"
