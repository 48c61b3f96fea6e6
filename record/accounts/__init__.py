"""What follows by keeping account: tests against what undid them, deliveries, readings, fill."""
