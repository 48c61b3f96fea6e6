"""Numbers in, numbers out: the calculations know nothing of any record."""
