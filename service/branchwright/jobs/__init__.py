"""Floor 5: questions that join several checks, or ask one of them again and again."""
