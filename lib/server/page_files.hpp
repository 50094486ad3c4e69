// The page's own files, compiled into the program.
#pragma once

#include <span>
#include <string_view>

namespace farflung::server {

struct PageFile {
  std::string_view name;     ///< within lib/server/page
  std::string_view gzipped;  ///< its bytes, compressed
  std::string_view tag;      ///< differs where the bytes do
};

std::span<const PageFile> page_files();

}  // namespace farflung::server
