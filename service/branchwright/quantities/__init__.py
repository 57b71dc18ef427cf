"""Floor 0: conductor sizes, trade sizes, lengths and torques as the trade writes them."""
