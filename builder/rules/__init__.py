"""Every rule of the tool in one ordered table; the page of each stands in ``pages/``.

Ids are never used twice: a retired rule keeps its line. Families: H header, O order, D demand,
T tempo, S dose, N notices, W words, P props, F figures, C cards, L links, R releases, G languages.
V (privacy) is kept for later.
"""

from builder.findings import Rule, Severity

HEADER_MISSING = Rule("H101", "header-missing")
HEADER_UNREADABLE = Rule("H102", "header-unreadable")
KEY_MISSING = Rule("H103", "key-missing")
KEY_UNKNOWN = Rule("H104", "key-unknown")
KEY_DOUBLED = Rule("H105", "key-doubled")
WRONG_TYPE = Rule("H106", "wrong-type")
TEMPO_MALFORMED = Rule("H107", "tempo-malformed")
ID_MALFORMED = Rule("H108", "id-malformed")
ID_DOUBLED = Rule("H109", "id-doubled")
NAME_UNKNOWN = Rule("H110", "name-unknown")
DATE_IN_FUTURE = Rule("H111", "date-in-future")
BODY_MALFORMED = Rule("H112", "body-malformed")
VALUE_OUT_OF_RANGE = Rule("H113", "value-out-of-range")
ALLOWANCE_UNUSED = Rule("H114", "allowance-unused", Severity.WARNING)
FILE_MISPLACED = Rule("H115", "file-misplaced")
TEXT_UNREADABLE = Rule("H116", "text-unreadable")
LIMIT_LOOSENED = Rule("H117", "limit-loosened")
ALLOWANCE_REFUSED = Rule("H118", "allowance-refused")

BUILDS_ON_UNKNOWN = Rule("O101", "builds-on-unknown")
CIRCULAR_ORDER = Rule("O102", "circular-order")
UNREACHABLE_LESSON = Rule("O103", "unreachable-lesson")
SKIPPED_LEVEL = Rule("O104", "skipped-level")
BUILDS_ON_HIGHER_LEVEL = Rule("O105", "builds-on-higher-level")
EASIER_NOT_EASIER = Rule("O106", "easier-not-easier")
HARDER_NOT_HARDER = Rule("O107", "harder-not-harder")
NO_WAY_BACK = Rule("O108", "no-way-back", Severity.WARNING)
READINESS_MISSING = Rule("O109", "readiness-missing")
NAVIGATION_OUT_OF_ORDER = Rule("O110", "navigation-out-of-order")
TWIN_LESSONS = Rule("O111", "twin-lessons")
NEIGHBOUR_UNKNOWN = Rule("O112", "neighbour-unknown")
FORMER_ID_TAKEN = Rule("O113", "former-id-taken")

TOO_MANY_DEMANDS = Rule("D101", "too-many-demands")
DEMAND_JUMP = Rule("D102", "demand-jump")
HOLD_WITH_NEW_DEMAND = Rule("D103", "hold-with-new-demand")

CYCLE_OUT_OF_BAND = Rule("T101", "cycle-out-of-band")
LONG_INHALE = Rule("T102", "long-inhale")
HOLD_BEFORE_COUNT = Rule("T103", "hold-before-count")
HOLD_TOO_LONG = Rule("T104", "hold-too-long")
LIMB_UP_TOO_LONG = Rule("T105", "limb-up-too-long")
BREATH_BEYOND_CAPACITY = Rule("T106", "breath-beyond-capacity")
TEMPO_UNLIKE_WORDS = Rule("T107", "tempo-unlike-words")
BOX_WHILE_MOVING = Rule("T108", "box-while-moving")
BOX_TOO_LONG = Rule("T109", "box-too-long", Severity.WARNING)
BIG_BREATH = Rule("T110", "big-breath", Severity.WARNING)
EFFORT_UNLIKE_SOURCE = Rule("T111", "effort-unlike-source")

SIDES_MISSING = Rule("S101", "sides-missing")
ODD_ALTERNATION = Rule("S102", "odd-alternation")
REST_MISSING = Rule("S103", "rest-missing")
LESSON_TOO_LONG = Rule("S104", "lesson-too-long", Severity.WARNING)
PRACTICE_DAYS_OUT_OF_RANGE = Rule("S105", "practice-days-out-of-range", Severity.WARNING)
STEEP_LADDER = Rule("S106", "steep-ladder")

TRAIT_WITHOUT_NOTICE = Rule("N101", "trait-without-notice")
NOTICE_WITHOUT_LESSON = Rule("N102", "notice-without-lesson", Severity.WARNING)
NOTICE_PAST_REVIEW = Rule("N103", "notice-past-review", Severity.WARNING)
NOTICE_WITHOUT_SOURCE = Rule("N104", "notice-without-source")
WAIVER_WITHOUT_REASON = Rule("N105", "waiver-without-reason")
WAIVER_HIDES_NOTHING = Rule("N106", "waiver-hides-nothing", Severity.WARNING)
STOP_SIGNS_MISSING = Rule("N107", "stop-signs-missing")
HANDS_ON_WITHOUT_CONSENT = Rule("N108", "hands-on-without-consent")
CURE_CLAIM = Rule("N109", "cure-claim")
PUSH_THROUGH_PAIN = Rule("N110", "push-through-pain")
ADAPT_MISSING = Rule("N111", "adapt-missing")
NOTICE_LOST = Rule("N112", "notice-lost")
NOTICE_UNLISTED = Rule("N113", "notice-unlisted", Severity.WARNING)
WAIVER_REFUSED = Rule("N114", "waiver-refused")

HARD_WORDS = Rule("W101", "hard-words", Severity.WARNING)
VERY_HARD_WORDS = Rule("W102", "very-hard-words")
LONG_SENTENCE = Rule("W103", "long-sentence", Severity.WARNING)
LONG_CUE = Rule("W104", "long-cue", Severity.WARNING)
TERM_WITHOUT_ENTRY = Rule("W105", "term-without-entry", Severity.WARNING)
BLAME_OR_FEAR = Rule("W106", "blame-or-fear", Severity.WARNING)
SIDES_UNLIKE_MOVING = Rule("W107", "sides-unlike-moving")
COACH_WORDS_FOR_CLIENTS = Rule("W108", "coach-words-for-clients")
FOREIGN_SPELLING = Rule("W109", "foreign-spelling", Severity.WARNING)

PROP_WITHOUT_STAND_IN = Rule("P101", "prop-without-stand-in", Severity.WARNING)
PROP_UNLISTED = Rule("P102", "prop-unlisted")
PROP_UNUSED = Rule("P103", "prop-unused", Severity.WARNING)
PROP_OVER_SET = Rule("P104", "prop-over-set", Severity.WARNING)

JOINT_BEYOND_LIMIT = Rule("F101", "joint-beyond-limit")
BODY_THROUGH_FLOOR = Rule("F102", "body-through-floor")
CONTACT_MISSED = Rule("F103", "contact-missed")
BREATHS_ALIKE = Rule("F104", "breaths-alike")
FIGURE_UNLIKE_MOVING = Rule("F105", "figure-unlike-moving")

CARD_OVERFLOW = Rule("C101", "card-overflow")
TEXT_TOO_SMALL = Rule("C102", "text-too-small")
LOW_CONTRAST = Rule("C103", "low-contrast")
QR_TARGET_MISSING = Rule("C104", "qr-target-missing")
NOTICE_MISSING = Rule("C105", "notice-missing")
TEXT_LOST = Rule("C106", "text-lost")

BROKEN_LINK = Rule("L101", "broken-link")
BROKEN_ANCHOR = Rule("L102", "broken-anchor")
UNLINKED_LESSON = Rule("L103", "unlinked-lesson")

CHANGED_SINCE_RELEASE = Rule("R101", "changed-since-release", Severity.NOTE)

TRANSLATION_MISSING = Rule("G101", "translation-missing", Severity.WARNING)
NOTICE_UNTRANSLATED = Rule("G102", "notice-untranslated")
TRANSLATION_UNLIKE = Rule("G103", "translation-unlike")
NUMBERS_UNLIKE = Rule("G104", "numbers-unlike")
TRANSLATION_STALE = Rule("G105", "translation-stale", Severity.WARNING)
WAY_UNTRANSLATED = Rule("G106", "way-untranslated", Severity.WARNING)
LANGUAGE_UNSPOKEN = Rule("G107", "language-unspoken", Severity.NOTE)

RULES = tuple(value for value in dict(globals()).values() if isinstance(value, Rule))
"""All rules in the order of this file."""

RULES_BY_ID = {rule.id: rule for rule in RULES}
