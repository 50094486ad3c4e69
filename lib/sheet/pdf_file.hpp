// What qpdf does for a PDF, in plain types: its headers and clang 14 agree up to C++17 only, so that pdf_file.cpp is
// C++17.
#pragma once

#include <string>
#include <vector>

namespace farflung::sheet {

/// A JPEG whose colour is as sharp as its lightness. `rgb` holds 3 bytes a pixel, row by row.
std::string jpeg_of(const unsigned char* rgb, int width, int height);

/// The PDF written anew: compressed, in a stated language, without a date, its figures in reading order carrying
/// `says`. Throws std::exception where `bytes` are no PDF.
std::string finished_pdf(const std::string& bytes, const std::vector<std::string>& says);

}  // namespace farflung::sheet
