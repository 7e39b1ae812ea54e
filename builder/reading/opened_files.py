"""The files of a course that were opened: their texts, and what was wrong with opening them."""

import os
from dataclasses import dataclass, field
from pathlib import Path

from builder.findings import Finding
from builder.reading.file_names import find_id_fault
from builder.reading.text_file import TextFile, read_text, split_header


@dataclass(slots=True)
class OpenedFiles:
    """Opens file by file, and gathers texts and findings."""

    root: Path
    findings: list[Finding]
    texts: dict[str, str] = field(default_factory=dict)
    """What was read, by path."""

    def read(self, path: Path) -> tuple[str, str | None]:
        """Return a file's name and its text; no text where it is badly named or unreadable."""
        name = path.relative_to(self.root).as_posix()
        if not self.is_well_named(find_id_fault(name)):
            return name, None
        text, findings = read_text(self.root, path)
        self.findings += findings
        if text is not None:
            self.texts[name] = text
        return name, text

    def read_extra(self, path: Path) -> tuple[str, str | None]:
        """Read a file that a course may have; no text where it is missing or unreadable."""
        name = path.relative_to(self.root).as_posix()
        if not os.path.lexists(path):  # what is there and no file is told
            return name, None
        text, findings = read_text(self.root, path)
        self.findings += findings
        return name, text

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
