"""Reads a Green Button file as a stream: no tree is built, and nothing of it is kept but what counts."""

from collections.abc import Iterable, Iterator
from xml.etree.ElementTree import ParseError

from defusedxml.common import DefusedXmlException, DTDForbidden
from defusedxml.ElementTree import DefusedXMLParser

from branchwright.checks.service_capacity.interval_data.facts import MOST_BYTES
from branchwright.checks.service_capacity.interval_data.faults import Faults
from branchwright.checks.service_capacity.interval_data.green_button.elements import FeedTarget
from branchwright.checks.service_capacity.interval_data.green_button.resources import Feed
from branchwright.checks.service_capacity.interval_data.unreadable import UnreadableBody

LONGEST_PIECE = 1 << 20
"""Bytes without the end of a tag: of one with thousands of attributes, or of text that no resource has."""

PIECE_BYTES = 1 << 16


def parse_feed(body: Iterable[bytes], faults: Faults) -> Feed:
    """Return what counts of a file; raise UnreadableBody where it must not or cannot be read."""
    target = FeedTarget(faults)
    parser = DefusedXMLParser(target=target, forbid_dtd=True, forbid_entities=True, forbid_external=True)
    size = 0
    try:
        for chunk in _pieces(body):
            size += len(chunk)
            if size > MOST_BYTES:
                raise UnreadableBody(f"The file is longer than {MOST_BYTES} bytes.")
            parser.feed(chunk)
        parser.close()
    except UnreadableBody:
        raise
    except DTDForbidden:
        raise UnreadableBody("The file has a document type declaration, which is not read.") from None
    except DefusedXmlException:
        raise UnreadableBody("The file declares entities, which are not read.") from None
    except ParseError as error:
        raise UnreadableBody(f"The file is no well-formed XML: {str(error)[:200]}.") from None
    except (LookupError, ValueError) as error:
        # What expat says of encodings that it does not know, and of those that it cannot use.
        raise UnreadableBody(f"The file is in an encoding that is not read: {str(error)[:200]}.") from None
    return target.feed


def _pieces(body: Iterable[bytes]) -> Iterator[bytes]:
    """Yield a body in pieces, so that a limit is met before all of it is read."""
    open_for = 0
    for chunk in body:
        for at in range(0, len(chunk), PIECE_BYTES):
            piece = chunk[at : at + PIECE_BYTES]
            open_for = 0 if b">" in piece else open_for + len(piece)
            if open_for > LONGEST_PIECE:
                raise UnreadableBody(f"The file has {LONGEST_PIECE} bytes without the end of a tag.")
            yield piece
