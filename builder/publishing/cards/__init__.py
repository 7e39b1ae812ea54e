"""Cards, packs and sheets as PDF."""
