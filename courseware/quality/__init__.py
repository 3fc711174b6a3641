"""What an assurer asks for: samples, audit copies, criteria mapped, two markers compared."""
