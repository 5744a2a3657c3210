"""What every branch of physics rests on: its errors, and numerical methods that report how well they did."""
