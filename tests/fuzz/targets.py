"""Every reader that is fuzzed, by name."""

from collections.abc import Mapping

from tests.fuzz.course_targets import COURSE_TARGETS
from tests.fuzz.finished_targets import FINISHED_TARGETS
from tests.fuzz.kinds import Target
from tests.fuzz.record_targets import RECORD_TARGETS
from tests.fuzz.translation_targets import TRANSLATION_TARGETS
from tests.fuzz.value_targets import VALUE_TARGETS
from tests.fuzz.whole_targets import WHOLE_TARGETS

_ALL = (
    *COURSE_TARGETS,
    *TRANSLATION_TARGETS,
    *VALUE_TARGETS,
    *RECORD_TARGETS,
    *FINISHED_TARGETS,
    *WHOLE_TARGETS,
)
TARGETS: Mapping[str, Target] = {target.name: target for target in _ALL}
