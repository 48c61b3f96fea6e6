"""Speed, as ratios against a floor measured in the same run. Nothing here is a timed assertion."""
