"""Model: the equations of motion of a rotor in lag on its support, on which the topics stand."""
