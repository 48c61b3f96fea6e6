"""The manual's chapters: Markdown that asks the record."""
