"""The one thing that no finding can say: a body that cannot be read at all."""


class UnreadableBody(ValueError):
    """The body is no CSV or Green Button file that may be read; the text says why."""

    def __init__(self, detail: str) -> None:
        """Keep why."""
        super().__init__(detail)
        self.detail = detail
