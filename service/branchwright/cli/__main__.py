"""Lets the command line be started as a module: `python -m branchwright.cli`."""

from branchwright.cli.commands import main

main()
