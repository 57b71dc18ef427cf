"""Pictures that the build draws from the codebook and the engine, each with a function that returns its numbers."""
