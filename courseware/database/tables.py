"""The tables of a record as they are now: rows are added, never changed; the newest of a thing is how it stands.

`steps` makes them. Times are ISO 8601 in UTC; cells, slips and what was issued are JSON. Names stand in `person` alone.
"""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Integer, MetaData, String, Table, Text
from sqlalchemy.dialects.mysql import LONGTEXT
from sqlalchemy.types import TypeEngine

_CODE, _LABEL, _WORD = String(16), String(40), String(20)
LONG: TypeEngine[str] = Text().with_variant(LONGTEXT(), "mysql", "mariadb")  # whose own Text ends at 64 kB
METADATA = MetaData()

STEP = Table(
    "step", METADATA,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

SITTING = Table(
    "sitting", METADATA,
    Column("code", _CODE, primary_key=True),
    Column("title", Text, nullable=False),
    Column("date", String(10), nullable=False),
    Column("class_name", Text, nullable=False),
    Column("head", LONG, nullable=False),  # the record's head: seed, banks and all that is not a paper
    Column("retake_of", _CODE),
    Column("taken_at", String(40), nullable=False),
)  # fmt: skip

PAPER = Table(
    "paper", METADATA,
    Column("code", _CODE, primary_key=True),
    Column("sitting", _CODE, ForeignKey("sitting.code"), nullable=False, index=True),
    Column("place", Integer, nullable=False),
    Column("issued", LONG, nullable=False),  # the paper in the record, without its learner
)  # fmt: skip

PERSON = Table(
    "person", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("name", Text, nullable=False),
    Column("reference", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

SCRIPT = Table(
    "script", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("role", _WORD, nullable=False),
    Column("status", _WORD, nullable=False),
    Column("cells", LONG, nullable=False),  # by label, exactly as written
    Column("unread", LONG, nullable=False),  # by label, why a cell could not be read at all
    Column("line", Integer, nullable=False),  # its row in the source
    Column("source", Text, nullable=False),
    Column("assessor", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

MARK = Table(
    "mark", METADATA,
    Column("id", Integer, primary_key=True),
    Column("script", Integer, ForeignKey("script.id"), nullable=False, index=True),
    Column("label", _LABEL, nullable=False),
    Column("marks", Integer, nullable=False),
    Column("of", Integer, nullable=False),
    Column("how", _WORD, nullable=False),
    Column("why", Text, nullable=False),
    Column("slips", Text, nullable=False),
    Column("written", Text, nullable=False),
    Column("comment", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

DECISION = Table(
    "decision", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("label", _LABEL, nullable=False),
    Column("role", _WORD, nullable=False),
    Column("attempt", Integer, nullable=False),  # of the paper, as it stood when this was decided
    Column("marks", Integer),  # none: the mark stands
    Column("reason", Text, nullable=False),
    Column("comment", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
    Column("source", Text),  # the sheet that it stood on; none: made before this was noted
)  # fmt: skip

TYPED_OTHERWISE = Table(  # a cell that two typed differently, neither having seen the other's
    "typed_otherwise", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("label", _LABEL, nullable=False),
    Column("role", _WORD, nullable=False),
    Column("attempt", Integer, nullable=False),
    Column("stands", Text, nullable=False),  # what stood, and stands until it is settled
    Column("text", Text, nullable=False),  # what was typed; the same as stands: it is settled
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

SETTING = Table(
    "setting", METADATA,
    Column("id", Integer, primary_key=True),
    Column("kind", _WORD, nullable=False),
    Column("months", Integer),  # none: without end
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

REGISTER = Table(
    "register", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("entry", _WORD, nullable=False),
    Column("attempt", Integer, nullable=False),  # which time the learner is at this work
    Column("due", String(10)),  # ISO 8601; none: no day was set
    Column("sheets", Text, nullable=False),  # the format in which the paper was issued, '' as usual
    Column("reason", Text, nullable=False),
    Column("by", Text, nullable=False),  # '' before this was noted
    Column("at", String(40), nullable=False),
)  # fmt: skip

STATE = Table(
    "state", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("state", _WORD, nullable=False),
    Column("upto", Integer, nullable=False),  # the newest mark that it was said of
    Column("reason", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

FILE = Table(
    "file", METADATA,
    Column("id", Integer, primary_key=True),
    Column("path", Text, nullable=False),
    Column("sha256", String(64), nullable=False),  # of what was written
    Column("codes", Text, nullable=False),  # of the papers that it is about
    Column("at", String(40), nullable=False),
)  # fmt: skip

OBSERVATION = Table(
    "observation", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),  # one of the learner's
    Column("job", Text, nullable=False),  # its short name
    Column("title", Text, nullable=False),
    Column("bay", Text, nullable=False),
    Column("day", String(10), nullable=False),  # of the work, as ISO 8601 has it
    Column("profile", Text, nullable=False),
    Column("results", LONG, nullable=False),  # line by line, with the target and the deviation it was judged by
    Column("photos", LONG, nullable=False),  # file, SHA-256, what it shows
    Column("remark", Text, nullable=False),
    Column("learner_remark", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
    Column("withdrawn", Text),  # the reason for which `by` withdrew it; none: it stands
)  # fmt: skip

GIVEN_MARK = Table(  # by a person, to a part as it was written
    "given_mark", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("label", _LABEL, nullable=False),
    Column("purpose", _WORD, nullable=False),
    Column("marks", Integer, nullable=False),
    Column("note", Text, nullable=False),
    Column("written", Text, nullable=False),
    Column("source", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
    Column("withdrawn", Text),  # the reason for which `by` took it back; none: it stands
)  # fmt: skip

SAMPLED = Table(  # what a quality assurer found of a paper in a sample
    "sampled", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("plan", Text, nullable=False),  # the sampling plan's seed
    Column("agreed", Integer, nullable=False),  # 1, or 0
    Column("action", Text, nullable=False),  # '' for none
    Column("done", String(10)),  # the day on which the action was closed; none: it is open
    Column("note", Text, nullable=False),
    Column("by", Text, nullable=False),
    Column("day", String(10), nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

APPEAL = Table(
    "appeal", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("outcome", _WORD, nullable=False),
    Column("marks", Integer, nullable=False),  # of the script as it stood then
    Column("upto", Integer, nullable=False),  # the newest mark then
    Column("reason", Text, nullable=False),
    Column("day", String(10), nullable=False),
    Column("by", Text, nullable=False),
    Column("at", String(40), nullable=False),
)  # fmt: skip

PACK = Table(  # the scripts of a standardisation pack
    "pack", METADATA,
    Column("id", Integer, primary_key=True),
    Column("paper", _CODE, ForeignKey("paper.code"), nullable=False, index=True),
    Column("attempt", Integer, nullable=False),
    Column("number", Integer, nullable=False),  # of the sitting's packs
    Column("letter", _WORD, nullable=False),  # that the script goes by
    Column("at", String(40), nullable=False),
)  # fmt: skip
