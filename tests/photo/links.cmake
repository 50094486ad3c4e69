set(links farflung_simulator farflung_opencv Eigen3::Eigen PkgConfig::vips)
