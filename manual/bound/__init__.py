"""What one edition is made of, and which were issued before."""
