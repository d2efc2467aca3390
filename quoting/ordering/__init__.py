"""From an accepted quote to an order with all its files."""
