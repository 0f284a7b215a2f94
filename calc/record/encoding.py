"""Encoding: how the bytes of a text file are to be read, told from its beginning."""

_MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))


def encoding_of(begin: bytes) -> str:
    """Return the name of an encoding: by its mark, UTF-8, or the Western page of older loggers.

    Examples:
        >>> encoding_of("Temperatur °C".encode("cp1252")), encoding_of("°C".encode())
        ('cp1252', 'utf-8')
    """
    for mark, name in _MARKS:
        if begin.startswith(mark):
            return name
    try:
        begin.decode("utf-8")
    except UnicodeDecodeError as error:
        if error.reason != "unexpected end of data":  # a letter that the piece ends within
            return "cp1252"
    return "utf-8"
