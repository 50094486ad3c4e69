// What a finished PDF holds, as qpdf reads it, in plain types: read_pdf.cpp is C++17, as sheet/pdf_file.hpp says.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace farflung::sheet {

struct PdfAsRead {
  bool sound = false;   ///< qpdf had nothing to warn of
  bool tagged = false;  ///< its figures are in reading order, each with words in its place
  bool dated = false;
  std::size_t pages = 0;
  std::string language, title;
  std::vector<std::string> figures;  ///< what each says in its place, in reading order
};

/// Throws std::exception where `bytes` are no PDF.
PdfAsRead read_pdf(const std::string& bytes);

}  // namespace farflung::sheet
