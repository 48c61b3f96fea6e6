"""From a page to a PDF that is kept and can be read aloud."""
