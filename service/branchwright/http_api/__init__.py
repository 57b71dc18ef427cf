"""The contract over HTTP: the application, its routes and what keeps them safe. No arithmetic here."""
