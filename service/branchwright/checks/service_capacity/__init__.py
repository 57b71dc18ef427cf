"""Whether a service carries a charger: its load calculated or measured, reviewed, and charging that is managed."""
