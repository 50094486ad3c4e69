set(links PkgConfig::qpdf)
list(APPEND sources ${folder}/read_pdf.cpp)
set_source_files_properties(${folder}/read_pdf.cpp PROPERTIES COMPILE_OPTIONS -std=c++17 SKIP_PRECOMPILE_HEADERS ON
                                                              SKIP_UNITY_BUILD_INCLUSION ON)  # as sheet/pdf_file.hpp says
