// Names of ours as people type them.
#pragma once

#include <string>

namespace farflung {

/// Small letters, words joined by hyphens: "Nine Patch", "nine_patch" and " NINE-PATCH" are all "nine-patch". Letters
/// beyond ASCII stay as they are.
std::string plain_name(const std::string& typed);

}  // namespace farflung
