"""Sizes in millimetres, type, colours and shapes. Nothing here knows a screen."""
