set(links farflung_simulator farflung_opencv)
