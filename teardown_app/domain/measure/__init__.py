"""From a typed reading to its verdict: quantities, limits, rules of decision, uncertainty, torque."""
