"""Drafts of the emergency pages, one TOML file an event; `manual.draft` reads them."""
