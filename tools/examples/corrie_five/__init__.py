"""The Corrie Five at the Tarnside Engine Room: readings station by station, reworks, and the whole record."""
