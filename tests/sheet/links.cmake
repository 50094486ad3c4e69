set(links PkgConfig::qpdf)
