"""Calculators."""
