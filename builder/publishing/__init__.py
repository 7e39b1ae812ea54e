"""Values to pages, cards and packs."""
