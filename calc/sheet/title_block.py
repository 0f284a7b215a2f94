"""Title block: what a reader types for a report beside the data, and what the report leaves out."""

from dataclasses import dataclass
from typing import Annotated

from calc.declaration import Name

REVISION = Name("Revision")
PREPARED_BY = Name("Prepared by")
CHECKED_BY = Name("Checked by")
DATE = Name("Date")
LEAVE_OUT = Name("Left out of the report", longest=1_000)


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What stands at the head of a report; what is blank is filled in by pen.

    Attributes:
        revision: Revision of the data sheet; text.
        prepared_by: Who prepared it; text.
        checked_by: Who checked it; text.
        date: When it was prepared; text.
        leave_out: Parts and answers that the report leaves out; keys with commas between them.
    """

    revision: Annotated[str, REVISION] = ""
    prepared_by: Annotated[str, PREPARED_BY] = ""
    checked_by: Annotated[str, CHECKED_BY] = ""
    date: Annotated[str, DATE] = ""
    leave_out: Annotated[str, LEAVE_OUT] = ""
