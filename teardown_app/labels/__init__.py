"""Labels: a number as QR code and in clear, as one picture or as a PDF for a sheet or a roll.

Holds the drawing and the stocks. Which numbers there are and what is written beside them is handed in;
reading a label back is the business of the intake room.
"""
