"""The course as one book for reading programs: EPUB 3.3, for reading on the floor."""
