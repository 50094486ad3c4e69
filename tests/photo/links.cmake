set(links farflung_simulator farflung_opencv PkgConfig::vips)
