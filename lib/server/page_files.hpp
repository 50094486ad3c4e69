// The page's own files, compiled into the program.
#pragma once

#include <span>
#include <string_view>

namespace farflung::server {

/// One file as it lies in the program.
struct PageFile {
  std::string_view name;     ///< within lib/server/page
  std::string_view gzipped;  ///< its bytes, compressed
  std::string_view tag;      ///< differs where the bytes do
};

/// Written by embed.cmake when the program is built.
std::span<const PageFile> page_files();

}  // namespace farflung::server
