"""Renderers of a checked pattern: prose, chart and sheet. None of them knows of another."""
