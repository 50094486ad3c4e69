// The fuzzer's way in: one program for each entry, which FARFLUNG_FUZZ_ENTRY names.
#include <cstddef>
#include <cstdint>

#include "fuzz/entries.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  farflung::fuzz::FARFLUNG_FUZZ_ENTRY({reinterpret_cast<const char*>(bytes), count});
  return 0;
}
