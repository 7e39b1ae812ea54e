"""What common hosts of plain files publish about themselves.

Figures change: each says where it is from, and whether it was looked up or is from memory.
"""

from dataclasses import dataclass

_MB = 1000**2
_MIB = 1024**2
_GB = 1000**3


@dataclass(frozen=True, slots=True)
class Host:
    """One host; None where it publishes no limit that we know of."""

    name: str
    source: str
    most_bytes: int | None = None
    most_files: int | None = None
    largest_bytes: int | None = None
    reads_headers: bool = False
    """Whether it takes headers from a file ``_headers``; all four from memory."""


HOSTS = (
    Host(
        "GitHub Pages",
        "its page of limits, looked up in November 2026 in a stored copy",
        most_bytes=_GB,
    ),
    Host(
        "GitLab Pages",
        "its issue 405048 on limits of GitLab.com, looked up in November 2026 in a stored copy",
        most_bytes=_GB,
        most_files=200_000,
    ),
    Host(
        "Cloudflare Pages",
        "number of files: its changelog of January 2026, free plan; 25 MiB a file: from memory",
        most_files=20_000,
        largest_bytes=25 * _MIB,
        reads_headers=True,
    ),
    Host("Netlify", "from memory; no limit known to us", reads_headers=True),
)


def list_refusals(host: Host, sizes: dict[str, int]) -> tuple[str, ...]:
    """Return in words what of a site goes beyond a host's limits."""
    told = []
    total = sum(sizes.values())
    if host.most_bytes is not None and total > host.most_bytes:
        told.append(f"at most {word_bytes(host.most_bytes)} in all")
    if host.most_files is not None and len(sizes) > host.most_files:
        told.append(f"at most {host.most_files:,} files")
    if host.largest_bytes is not None:
        large = [path for path, size in sizes.items() if size > host.largest_bytes]
        told += [f'no file above {word_bytes(host.largest_bytes)}: "{path}"' for path in large[:1]]
    return tuple(told)


def word_bytes(count: int) -> str:
    """Write a size as people read it, in steps of a thousand."""
    return f"{count / _MB:,.1f} MB" if count >= _MB / 10 else f"{count / 1000:,.1f} kB"
