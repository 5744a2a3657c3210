"""Programs that make what the package ships; none of them is installed."""
