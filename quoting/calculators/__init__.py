"""Calculators for the bench: one table, which the command and the page ask."""
