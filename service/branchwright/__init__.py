"""Design checks for branch circuits that charge electric vehicles, with sourced and replayable answers."""

__version__ = "0.4.0"
