"""What every question shares: field types, readings, the makers of findings and steps, and what answers have alike."""
