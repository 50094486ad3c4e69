// Where strangers' bytes come in, one function for each way: whatever the bytes are, each returns.
#pragma once

#include <string_view>

namespace farflung::fuzz {

// A promise that was not kept throws std::logic_error, which ends a fuzzer and fails a test.

void quilt(std::string_view bytes);       ///< quilt.json: read, laid out, written, read again to the same bytes
void pattern(std::string_view bytes);     ///< a pattern in a file of her own
void threads(std::string_view bytes);     ///< a list of threads by commas
void photograph(std::string_view bytes);  ///< a photograph, through the real decoder, and the prints found in it
void gradation(std::string_view bytes);   ///< the grey picture that a gradation follows, on a quilt of its own
void request(std::string_view bytes);     ///< what comes over a connection to the page's server; see request.cpp

}  // namespace farflung::fuzz
