"""What is ordered once a quote is accepted, what becomes of it, and what is handed over with it."""
