"""One module per page: its route, its context dataclass, and how the one becomes the other."""
