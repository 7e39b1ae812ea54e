"""A finished site, judged by its folder alone: what leads nowhere, and what a host needs."""
