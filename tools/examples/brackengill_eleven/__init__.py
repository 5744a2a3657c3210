"""The Brackengill Eleven at Hollin Bank Restorations: readings as found, reworks, and the whole record."""
