"""Floor 4: one package per question."""
