"""Tariffs: is one sound, and what does each hour cost?"""
