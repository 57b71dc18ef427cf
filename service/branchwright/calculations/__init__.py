"""Floor 3: numbers in, numbers and steps out; no edition, no codebook, no request model."""
