"""How large, deep, many and slow an input may be: the one table of limits on what is read.

Whoever can write a file of a course can write one that takes all memory, or that never comes to
an end. Each limit is about twenty times what a course of 2,000 lessons needs, or what the demo has
where that says more; all of them are ours. A limit is asked where its input is read, before memory
or time is spent on what lies beyond it.
"""

from dataclasses import dataclass
from enum import StrEnum


class Measure(StrEnum):
    """What a limit bounds."""

    SIZE = "size"
    DEPTH = "depth"
    COUNT = "count"
    TIME = "time"


@dataclass(frozen=True, slots=True)
class InputLimit:
    """The most that the tool takes of one thing."""

    input: str
    """What is bounded, as the table of limits names it."""
    measure: Measure
    most: int
    unit: str
    why: str


_KB, _MB = 1024, 1024 * 1024

TEXT_BYTES = InputLimit(
    "a text file of a course or a program folder",
    Measure.SIZE,
    256 * _KB,
    "bytes",
    "the longest page of the demo has 18 kB; a longer one is read by nobody",
)
LEDGER_BYTES = InputLimit(
    "a ledger of releases",
    Measure.SIZE,
    2 * _MB,
    "bytes",
    "a release of each of 2,000 lessons takes 390 kB; it grows with each release",
)
LINE_CHARACTERS = InputLimit(
    "a line of such a file",
    Measure.SIZE,
    12_000,
    "characters",
    "the longest line of the demo has 555; looking for words in one line takes its square",
)
HEADER_CHARACTERS = InputLimit(
    "a header between two lines of ---",
    Measure.SIZE,
    64 * _KB,
    "characters",
    "the longest of the demo has 1,195",
)
YAML_LEVELS = InputLimit(
    "YAML: brackets and keys in one another",
    Measure.DEPTH,
    32,
    "levels",
    "no header needs more than six",
)
YAML_VALUES = InputLimit(
    "YAML: values of one file",
    Measure.COUNT,
    60_000,
    "values",
    "the course file of the demo has 360, its ledger 698; 2,000 lessons would have 24,000",
)
LIST_ENTRIES = InputLimit(
    "a list in the header of a lesson or notice",
    Measure.COUNT,
    200,
    "entries",
    "the longest in the demo has four; each name is held against every lesson",
)
PASSAGE_CHARACTERS = InputLimit(
    "a paragraph or item",
    Measure.SIZE,
    5000,
    "characters",
    "many times what fits on the largest card",
)
PASSAGES = InputLimit(
    "paragraphs and items of a lesson",
    Measure.COUNT,
    400,
    "passages",
    "the longest lesson of the demo has 19",
)
BODY_CHARACTERS = InputLimit(
    "the body of a lesson",
    Measure.SIZE,
    48 * _KB,
    "characters",
    "the longest of the demo has 2,690; a card is laid out several times with all of them",
)
LINKS = InputLimit(
    "square brackets and back-ticks of one text",
    Measure.COUNT,
    4000,
    "signs of links and code",
    "the page of the demo with most has 92; the host's Markdown looks for the end of each",
)
BLOCK_LINKS = InputLimit(
    "the same between two empty lines",
    Measure.COUNT,
    800,
    "signs of links and code",
    "a block of the demo has 48 at most; looking for their ends takes the square of their number",
)
OPEN_BRACKETS = InputLimit(
    "square brackets in one another", Measure.DEPTH, 20, "levels", "a picture in a link has two"
)
PAGE_LEVELS = InputLimit(
    "quotations and lists in one another on a page",
    Measure.DEPTH,
    16,
    "levels",
    "a page of the demo has two; the host's Markdown calls itself for each",
)
PAGE_HEADINGS = InputLimit(
    "headings of a page",
    Measure.COUNT,
    1000,
    "headings",
    "the glossary of the demo has 145; the host looks for a free anchor from the first on",
)
WRONG_NAMES = InputLimit(
    "names of no lesson in one text",
    Measure.COUNT,
    100,
    "names",
    "each is held against every lesson; who has mended these sees the others",
)
FOLDER_LEVELS = InputLimit(
    "folders in one another in content/", Measure.DEPTH, 32, "levels", "a course has three"
)
FOLDER_ENTRIES = InputLimit(
    "files and folders in content/",
    Measure.COUNT,
    200_000,
    "entries",
    "2,000 lessons in three languages with two pictures each are 12,000",
)
OWN_FILE_BYTES = InputLimit(
    "a film, sound or download in content/",
    Measure.SIZE,
    512 * _MB,
    "bytes",
    "many web hosts take no larger ones (from memory)",
)
PICTURE_BYTES = InputLimit(
    "a picture in content/",
    Measure.SIZE,
    40 * _MB,
    "bytes",
    "a telephone makes pictures of 2 to 12 MB (from memory)",
)
PICTURE_DOTS = InputLimit(
    "width times height of a picture",
    Measure.SIZE,
    64_000_000,
    "dots",
    "a telephone makes 12 to 50 million (from memory); a file of 1 kB can claim billions",
)
TABLE_BYTES = InputLimit(
    "a CSV file or spreadsheet of records",
    Measure.SIZE,
    20 * _MB,
    "bytes",
    "200,000 rows have 12 MB",
)
TABLE_ROWS = InputLimit(
    "rows of such a file",
    Measure.COUNT,
    200_000,
    "rows",
    "a hundred people in two classes a week come to this in twenty years",
)
TABLE_COLUMNS = InputLimit(
    "columns of such a file", Measure.COUNT, 200, "columns", "a file of people has ten"
)
ROW_CHARACTERS = InputLimit(
    "a row of such a file",
    Measure.SIZE,
    64 * _KB,
    "characters",
    "the longest row of the demo has 106",
)
BROKEN_ROWS = InputLimit(
    "rows that make no sense", Measure.COUNT, 100, "rows", "with more the file is no table at all"
)
HINTS = InputLimit(
    "unknown names of such a file for which a near one is looked for",
    Measure.COUNT,
    1000,
    "names",
    "each is held against everybody; the rest is told without a guess",
)
SHEET_BYTES = InputLimit(
    "a spreadsheet, unpacked",
    Measure.SIZE,
    200 * _MB,
    "bytes",
    "a sheet at the limit of rows has less; a file that unpacks to more is a trap",
)
SHEET_PARTS = InputLimit(
    "files inside a spreadsheet",
    Measure.COUNT,
    1000,
    "parts",
    "a spreadsheet program writes ten to thirty",
)
SHEET_TAGS = InputLimit(
    "tags in a spreadsheet", Measure.COUNT, 8_000_000, "tags", "200,000 rows of ten cells"
)
PACKED_BYTES = InputLimit(
    "an archive in a finished site, unpacked with all archives in it",
    Measure.SIZE,
    400_000_000,
    "bytes",
    "a whole demo site has 92 MB",
)
BOOK_BYTES = InputLimit(
    "a book in a finished site, unpacked", Measure.SIZE, 200_000_000, "bytes", "the demo's has 1 MB"
)
PACKED_LEVELS = InputLimit(
    "archives in one another in a finished site",
    Measure.DEPTH,
    4,
    "levels",
    "a spreadsheet in a zip is two",
)
PACKED_PARTS = InputLimit(
    "parts of an archive in a finished site",
    Measure.COUNT,
    100_000,
    "parts",
    "a whole demo site has 920 files",
)
SITE_TEXT_BYTES = InputLimit(
    "a page or list of a finished site",
    Measure.SIZE,
    64 * _MB,
    "bytes",
    "the search index of the demo has 0.7 MB for 58 lessons",
)
PROOF_BYTES = InputLimit(
    "the proof of a finished site", Measure.SIZE, 64 * _MB, "bytes", "1,000 lessons have 10 MB"
)
PROOF_LESSONS = InputLimit(
    "lessons of such a proof", Measure.COUNT, 20_000, "lessons", "2,000 in ten languages"
)
PROOF_ENTRIES = InputLimit(
    "other lists of such a proof", Measure.COUNT, 400, "entries", "the demo has 20 notices"
)
READ_BACK_SECONDS = InputLimit(
    "work to read a file back", Measure.TIME, 30, "seconds", "sixteen cards of a pack take 2"
)
READ_BACK_BYTES = InputLimit(
    "memory to read a file back", Measure.SIZE, 1536 * _MB, "bytes", "a pack takes 200 MB"
)
JOB_SECONDS = InputLimit(
    "work of one job of printing: six cards, a pack, a sheet",
    Measure.TIME,
    60,
    "seconds",
    "six cards take 1 to 2 seconds; what waits as well may take five times so long",
)
JOB_BYTES = InputLimit(
    "memory of a worker that prints, where the system can bound it",
    Measure.SIZE,
    4 * 1024 * _MB,
    "bytes",
    "a worker takes about 200 MB",
)
PRINTED_PAGES = InputLimit(
    "pages of one print",
    Measure.COUNT,
    1200,
    "pages",
    "the contents of a pack of 2,000 lessons have 60",
)

INPUT_LIMITS = tuple(value for value in dict(globals()).values() if isinstance(value, InputLimit))
"""All limits in the order of this file; the table in DEVELOPERS says the same."""
