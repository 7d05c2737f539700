list woods resins
