"""The version of the SDK, read by the build and sent as part of the user agent."""

__version__ = "0.4.0"
