"""The tool in the keys of what a site keeps between builds."""

from builder.resources import find_templates
from builder.work.digest import digest
from builder.work.tool_state import describe_tool_here, digest_files


def describe_tool() -> str:
    """Return a digest of the whole tool with its templates and the libraries under it.

    A preview goes on with the code that it began with, but reads templates anew for each build.
    """
    return digest(describe_tool_here(), digest_files(find_templates()))
