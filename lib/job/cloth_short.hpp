// Of which prints the cloth in hand is not enough, in a sentence. For the sources of this module only.
#pragma once

#include <string>
#include <vector>

#include "quilt/quilt.hpp"

namespace farflung::job {

/// "The cloth in hand is not enough for Kelp and Foghorn: farflung cloth says what is missing."; "" for none.
std::string short_words(const quilt::Quilt& quilt, const std::vector<int>& prints);

}  // namespace farflung::job
