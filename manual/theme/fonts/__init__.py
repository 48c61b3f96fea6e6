"""The manual's typefaces as files, each with its licence beside it."""
