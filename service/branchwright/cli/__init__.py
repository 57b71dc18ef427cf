"""Floor 8: the command line."""

from branchwright.cli.commands import main

__all__ = ["main"]
