"""Templates of every kind are opened here, so that whatever goes into any of them is escaped."""

from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from builder.resources import find_templates


@cache
def open_templates(folder: str) -> Environment:
    """Open the templates of a folder of ``site_templates``; a missing value is an error."""
    return Environment(
        loader=FileSystemLoader(find_templates() / folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
