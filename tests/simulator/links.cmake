set(links farflung_simulator)
