"""What a host has to know to turn the pages into a site."""

THEME_FEATURES = (
    "navigation.indexes",
    "navigation.prune",
    "navigation.top",
    "navigation.footer",
    "toc.follow",
    "search.highlight",
)
"""Features of the theme: a strand's page is its heading in the navigation, lists stay short."""
PALETTE = (
    {
        "media": "(prefers-color-scheme: light)",
        "scheme": "default",
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": "material/weather-night", "name": "Use the dark scheme"},
    },
    {
        "media": "(prefers-color-scheme: dark)",
        "scheme": "slate",
        "primary": "custom",
        "accent": "custom",
        "toggle": {"icon": "material/weather-sunny", "name": "Use the light scheme"},
    },
)
"""Light and dark by the device's wish, each with a switch to the other."""


def is_source(path: str) -> bool:
    """Tell whether a file of the content folder is read by the tool and never a page itself."""
    folder, _, _ = path.partition("/")
    return path.endswith((".yml", ".yaml")) or (
        folder in ("lessons", "notices") and path.endswith(".md")
    )
