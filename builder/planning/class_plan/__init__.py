"""The class plan: the best class for these people, with these props, in this time, and why."""
