#include "server/code.hpp"

#include <memory>

#include <qrencode.h>

namespace farflung::server {
namespace {

constexpr int kQuiet = 4;  // modules, as the standard asks

struct Free {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
using Code = std::unique_ptr<QRcode, Free>;

Code code_of(const std::string& text) { return Code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M)); }

bool is_dark(const QRcode& code, int x, int y) {
  return x >= 0 && y >= 0 && x < code.width && y < code.width && (code.data[y * code.width + x] & 1U) != 0;
}

}  // namespace

std::string code_svg(const std::string& text) {
  const Code code = code_of(text);
  if (!code) return "";
  const std::string side = std::to_string(code->width + 2 * kQuiet);
  std::string path;
  for (int y = 0; y < code->width; ++y) {
    for (int x = 0; x < code->width; ++x) {
      if (is_dark(*code, x, y))
        path += "M" + std::to_string(x + kQuiet) + " " + std::to_string(y + kQuiet) + "h1v1h-1z";
    }
  }
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + side + " " + side +
         "\" shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 0h" + side + "v" + side +
         "H0z\"/><path fill=\"#000\" d=\"" + path + "\"/></svg>";
}

std::string code_lines(const std::string& text) {
  const Code code = code_of(text);
  if (!code) return "";
  std::string lines;
  for (int y = -kQuiet; y < code->width + kQuiet; y += 2) {
    lines += "\033[30;107m";
    for (int x = -kQuiet; x < code->width + kQuiet; ++x) {
      const bool upper = is_dark(*code, x, y);
      const bool lower = is_dark(*code, x, y + 1);
      lines += upper && lower ? "\u2588" : upper ? "\u2580" : lower ? "\u2584" : " ";
    }
    lines += "\033[0m\n";
  }
  return lines;
}

}  // namespace farflung::server
