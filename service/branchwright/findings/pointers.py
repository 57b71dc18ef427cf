"""JSON pointers: how a key stands in one."""


def escaped(key: str) -> str:
    """Return a key as it stands in a JSON pointer (RFC 6901, section 3).

    >>> escaped("raceway/emt/3/4"), escaped("~")
    ('raceway~1emt~13~14', '~0')
    """
    return key.replace("~", "~0").replace("/", "~1")
