"""Green Button files: the Atom feed of NAESB ESPI, read as a stream."""
