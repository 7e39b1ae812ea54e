"""Names in headers against the names a course knows."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date

from builder import rules
from builder.course.names import offer, suggest
from builder.course.notice import Review
from builder.findings import Finding, Place, Rule
from builder.reading.schema import ReviewPart, WaiverPart
from builder.reading.validation import place_of
from builder.reading.yaml_tree import Way, YamlTree


@dataclass(slots=True)
class HeaderCheck:
    """A header under inspection: what it names is looked up, and what is unknown is noted."""

    tree: YamlTree
    path: str
    today: date
    findings: list[Finding] = field(default_factory=list)

    def known(self, way: Way, name: str, known: Collection[str]) -> bool:
        """Tell whether a name is known; note a finding where it isn't."""
        if name in known:
            return True
        place = place_of(self.tree, self.path, way)
        if way[-1] == name:
            place = Place(self.path, *self.tree.keys[way])
        *around, key = (step for step in way if isinstance(step, str))
        what = around[-1] if around and key == name else key
        fact = f'"{name}" under "{what}" is unknown'
        cure = suggest(name, known) or offer(known)
        self.findings.append(rules.NAME_UNKNOWN.at(place, fact, cure))
        return False

    def all_known(self, key: str, names: Iterable[str], known: Collection[str]) -> Iterator[str]:
        """Yield the names of a list that are known."""
        for index, name in enumerate(names):
            if self.known((key, index), name, known):
                yield name

    def review(self, part: ReviewPart, way: Way = ("reviewed",)) -> Review:
        """Take over a review; note a finding where its day is still to come."""
        self.refuse_future(part.on, way, "on which it was reviewed")
        return Review(part.by, part.on)

    def review_of_waiver(self, notice_id: str, part: WaiverPart) -> Review:
        """Take over who waived a notice and when."""
        self.refuse_future(part.on, ("waive", notice_id), "on which it was reviewed")
        return Review(part.by, part.on)

    def refuse(self, rule: Rule, way: Way, fact: str, cure: str) -> None:
        """Note that a value is wrong."""
        self.findings.append(rule.at(place_of(self.tree, self.path, way), fact, cure))

    def refuse_future(self, day: date, way: Way, which: str) -> None:
        """Note a finding where a day under ``on`` is still to come."""
        if day > self.today:
            self.refuse(
                rules.DATE_IN_FUTURE,
                (*way, "on"),
                f"{day.isoformat()} is still to come",
                f"give the day {which}",
            )
