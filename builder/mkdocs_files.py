"""What the host reads instead of the course's own sources. Part of the plugin's shell."""

from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel

from builder.course.trust import Trust
from builder.publishing.pages.asides import lay_aside
from builder.publishing.site.edition import Edition
from builder.publishing.site.host import is_source
from builder.reading.untrusted_files import take_untrusted
from builder.work.tree import lies_within

_QUIET = InclusionLevel.NOT_IN_NAV
"""Nobody has to name a generated page in a navigation of their own."""


Asides = dict[str, tuple[str, ...]]
"""By the path of the page that they were laid aside from."""


class _Printed(File):
    """A finished file in a temporary folder, of which nobody needs a second copy."""

    def copy_file(self, dirty: bool = False) -> None:  # the host's own
        """Move the file into the site, or copy it to another disk."""
        target = Path(self.abs_dest_path)
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            Path(str(self.abs_src_path)).replace(target)
        except OSError:
            super().copy_file(dirty)
        else:
            self.abs_src_path = self.abs_dest_path


def swap_files(
    files: Files, config: MkDocsConfig, edition: Edition | None, printed: Path | None
) -> Asides:
    """Take out what is no page, and put finished pages and what was ``printed`` in its place.

    Return what was laid aside of pages, until the host is done with their words.
    """
    made = dict(edition.files) if edition else {}
    asides: Asides = {}
    for path in edition.list_safe_pages() if edition else ():
        made[path], asides[path] = lay_aside(str(made[path]))
    for file in tuple(files):
        if file.src_uri in made or not _may_stay(file, config, edition):
            files.remove(file)
        elif file.src_dir == config.docs_dir:
            _take(file, files, config, edition)
    for path, content in made.items():
        files.append(File.generated(config, path, content=content, inclusion=_QUIET))
    if printed:
        for made_file in sorted(path for path in printed.rglob("*") if path.is_file()):
            name = made_file.relative_to(printed).as_posix()
            files.append(_Printed.generated(config, name, abs_src_path=str(made_file)))
    return asides


def _take(file: File, files: Files, config: MkDocsConfig, edition: Edition | None) -> None:
    """Leave out what isn't trusted and no picture, and put a drawing that was written anew."""
    trust = edition.trust if edition else Trust.TRUSTED
    if trust.of(file.src_uri) is Trust.TRUSTED:
        return
    files.remove(file)
    content = take_untrusted(Path(config.docs_dir), Path(config.docs_dir, file.src_uri))
    if content is not None:
        files.append(File.generated(config, file.src_uri, content=content))


def _may_stay(file: File, config: MkDocsConfig, edition: Edition | None) -> bool:
    site = edition.site if edition else None
    docs = Path(config.docs_dir)
    if file.src_dir == config.docs_dir and not lies_within(docs / file.src_uri, docs):
        return False
    if site and site.is_translation and file.is_documentation_page():
        return False  # it is in the original's words
    return not is_source(file.src_uri, site.course.settings.languages if site else ())
