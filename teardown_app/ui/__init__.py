"""The touch app: a desk with the screens of three benches and the office, and the widgets that show them.

`desk.py` knows who is signed on, which screen is open and what is half-entered; `screens/` say what is
shown and do what was touched; `forms/` ask one thing after the other; none of these imports Kivy.
`look/` and `parts/` are what can be seen, `app.py` opens the window.
"""
