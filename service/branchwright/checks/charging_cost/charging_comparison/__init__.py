"""Comparisons of charging costs: what does charging cost a year, and does a separate meter pay?"""
