"""What others wrote - bills, workbooks, pictures - made into domain values or faults. Writes nothing."""
