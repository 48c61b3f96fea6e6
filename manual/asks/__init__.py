"""What a chapter may ask for, each from the record as one reader sees it."""
