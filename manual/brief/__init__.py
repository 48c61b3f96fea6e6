"""The answer to take along: one or two pages, and the blank that posts back."""
