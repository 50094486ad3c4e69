#include "project/gzip.hpp"

#include <array>
#include <new>

#include <zlib.h>

namespace farflung::project {
namespace {

constexpr int kGzipWindow = 15 + 16;  // zlib's way of asking for gzip's own header
constexpr int kEffort = 3;            // of 9: a version is kept at each change, and a fifth smaller is not worth a wait

Bytef* input(const std::string& bytes) {
  return reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));  // zlib only reads it
}

}  // namespace

std::string gzipped(const std::string& bytes) {
  z_stream stream{};
  if (deflateInit2(&stream, kEffort, Z_DEFLATED, kGzipWindow, 9, Z_DEFAULT_STRATEGY) != Z_OK) throw std::bad_alloc();
  std::string out(deflateBound(&stream, bytes.size()), '\0');
  stream.next_in = input(bytes);
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

std::optional<std::string> gunzipped(const std::string& bytes, std::uint64_t most) {
  z_stream stream{};
  if (inflateInit2(&stream, kGzipWindow) != Z_OK) throw std::bad_alloc();
  stream.next_in = input(bytes);
  stream.avail_in = static_cast<uInt>(bytes.size());
  std::string out;
  std::array<char, 65536> piece;
  int state = Z_OK;
  while (state == Z_OK && out.size() <= most) {
    stream.next_out = reinterpret_cast<Bytef*>(piece.data());
    stream.avail_out = static_cast<uInt>(piece.size());
    state = inflate(&stream, Z_NO_FLUSH);
    out.append(piece.data(), piece.size() - stream.avail_out);
  }
  inflateEnd(&stream);
  if (state != Z_STREAM_END || out.size() > most) return std::nullopt;
  return out;
}

}  // namespace farflung::project
