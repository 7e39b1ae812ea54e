"""The tool in the keys of what a site keeps between builds."""

from builder.resources import find_templates
from builder.work.digest import digest
from builder.work.tool import digest_files, digest_tool, list_installed


def describe_tool() -> str:
    """Return a digest of the whole tool with its templates and of all libraries that are here.

    The host and its theme do other things where some library is there that nobody asked for.
    A preview goes on with the code that it began with, but reads templates anew for each build.
    """
    return digest(digest_tool(), *list_installed(), digest_files(find_templates()))
