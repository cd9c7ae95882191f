"""The bill as read: lines, positions, what fits and closes over what, checks, routes, materials, names of gates."""
