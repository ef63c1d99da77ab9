"""Textbook mechanics on plain numbers and arrays: one module per subject.

Everything is SI (m, kg, s, N, rad, rad/s, W, V, A; temperatures in °C) and needs nothing
but numpy: no design file, no table, no screen. Conventions of all modules:

* *numeric* arguments are floats or arrays and broadcast together; floats in, float out;
* angles are anticlockwise positive;
* NaN in, NaN out; a pose that does not exist is NaN (see `numeric`);
* a function that returns several things returns a small frozen record or a tuple whose
  order the docstring states.
"""
