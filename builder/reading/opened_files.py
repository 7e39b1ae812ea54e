"""The files of a course that were opened: their texts, and what was wrong with opening them."""

import os
from dataclasses import dataclass, field
from pathlib import Path

from builder.course.trust import Trust
from builder.findings import Finding
from builder.reading.file_names import find_id_fault
from builder.reading.text_file import TextFile, read_text, split_header
from builder.reading.untrusted_text import find_untrusted_faults


@dataclass(slots=True)
class OpenedFiles:
    """Opens file by file, and gathers texts and findings."""

    root: Path
    folder: Path
    """Of the content; what is a link out of it isn't read."""
    findings: list[Finding]
    trust: Trust = Trust.TRUSTED
    """Of the course; what isn't trusted and isn't safe counts as unreadable."""
    texts: dict[str, str] = field(default_factory=dict)
    """What was read, by path."""

    def read(self, path: Path) -> tuple[str, str | None]:
        """Return a file's name and its text; no text where it is badly named or unreadable."""
        name = path.relative_to(self.root).as_posix()
        if not self.is_well_named(find_id_fault(name)):
            return name, None
        text = self.open(path)
        if text is not None:
            self.texts[name] = text
        return name, text

    def open(self, path: Path) -> str | None:
        """Return a file's text; nothing where it can't be read, or isn't safe to go on with."""
        text, findings = read_text(self.root, path, self.folder)
        self.findings += findings
        return text if text is not None and self.is_safe(path, text) else None

    def is_safe(self, path: Path, text: str) -> bool:
        """Note what a text that isn't trusted may not hold; tell whether there is none."""
        name, within = (path.relative_to(at).as_posix() for at in (self.root, self.folder))
        if self.trust.of(within) is Trust.TRUSTED:
            return True
        found = find_untrusted_faults(text, name, within)
        self.findings += found
        return not found

    def read_extra(self, path: Path) -> tuple[str, str | None]:
        """Read a file that a course may have; no text where it is missing or unreadable."""
        name = path.relative_to(self.root).as_posix()
        if not os.path.lexists(path):  # what is there and no file is told
            return name, None
        return name, self.open(path)

    def split(self, name: str, text: str | None) -> TextFile | None:
        """Part header from body; None where there is no text, or no header."""
        if text is None:
            return None
        file, findings = split_header(text, name)
        self.findings += findings
        return file

    def is_well_named(self, fault: Finding | None) -> bool:
        """Note a fault of a name; tell whether there is none."""
        self.findings += [fault] if fault else []
        return fault is None
