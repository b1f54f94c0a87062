"""What turns the handbook and the calculators into a site: assemble, render, pack, check, and the command line."""
