// What stands in an address: escaped characters, the parts of a path.
#pragma once

#include <string>
#include <vector>

namespace farflung::server {

/// "%20" becomes a space; with `form` a "+" too. What is no escape stays as it is.
std::string unescaped(const std::string& text, bool form = false);

/// The other way: all but letters, digits and -._~ is escaped.
std::string escaped(const std::string& text);

/// "/quilts/two%20boats/top" gives "quilts", "two boats", "top". Each part is unescaped by itself: it may hold a slash
/// or two dots, so that whoever makes a file's name of it looks first.
std::vector<std::string> path_parts(const std::string& path);

}  // namespace farflung::server
