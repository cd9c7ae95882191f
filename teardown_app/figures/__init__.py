"""Plots as lines, bands, marks and words. Drawn by the touch app on a canvas and by reports as vectors."""
