"""What tests share: the comparison of numbers, docstring reading, and the browser's place."""
