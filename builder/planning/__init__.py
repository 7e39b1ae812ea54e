"""What a person does next: where to start, and how to go on."""
