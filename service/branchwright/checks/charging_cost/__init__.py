"""What charging costs: tariffs and their bills, schedules, meters."""
