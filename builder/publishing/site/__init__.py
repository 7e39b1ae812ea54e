"""What a host needs: pages, files, cards and order of one site."""
