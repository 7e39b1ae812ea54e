"""What the machine must have, and how it gets it; standard library only but for the doctor."""
