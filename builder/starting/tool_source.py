"""Where the tool on this machine came from, so that a web host can install the same."""

import importlib.metadata
import json
from urllib.parse import urlsplit, urlunsplit

DISTRIBUTION = "tempoleaf"


def find_requirement() -> str:
    """Return a line for requirements.txt, or nothing where the tool came from a folder here."""
    try:
        told = importlib.metadata.distribution(DISTRIBUTION).read_text("direct_url.json")
    except importlib.metadata.PackageNotFoundError:
        return ""
    return read_requirement(told or "{}")


def read_requirement(direct_url: str) -> str:
    """Turn what the installer noted (PyPA, "Recording the Direct URL Origin") into a line."""
    told = json.loads(direct_url)
    url = _without_secrets(str(told.get("url", "")))
    if not url.startswith("https://"):
        return ""
    source = told.get("vcs_info")
    if isinstance(source, dict):
        return f"{DISTRIBUTION} @ {source.get('vcs')}+{url}@{source.get('commit_id')}"
    return f"{DISTRIBUTION} @ {url}" if "archive_info" in told else ""


def _without_secrets(url: str) -> str:
    """Take a name and password out of an address."""
    parts = urlsplit(url)
    return urlunsplit(parts._replace(netloc=parts.netloc.rpartition("@")[2]))
