"""Every page of the site as finished Markdown."""
