"""Eggs: their shape, their mass properties, their species, and how they sit in what holds them.

* `shape`: the outline of a bird's egg from a few measured lengths;
* `mass_properties`: volume, surface, centre of mass and moments of inertia of that shape;
* `allometry`: rules that give mass, volume or surface from length, breadth or mass alone;
* `species`, `classes`, `practice`: what the trade knows of eggs and of turning them;
* `lot`: the eggs of one batch as typical, largest and smallest egg;
* `seats`: where a held egg's centre is, how far it leans, and when it leaves its seat.
"""
