// What `choose` says of its sets, in the trade's words: each a sentence without a full stop.
#pragma once

#include "choice/choose.hpp"

namespace farflung::choice {

/// "all are told apart easily: the nearest two, Kelp and Weed, differ by CIEDE2000 24.1"; of two prints or more.
std::string apart_in_words(const std::vector<print::Print>& prints, const Measure& measure,
                           const std::vector<int>& take);

/// "values run from Foam (L* 92) to Keel (L* 20), the widest step 31 between ..."; `take` runs from light to dark.
std::string values_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take);

/// "hues: 3 green, 2 blue and 1 grey".
std::string hues_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take);

/// "motifs: 2 small, 3 middling and 1 large; 1 of 6 is busy". Small is under 3/4 in, large over 2 in.
std::string scales_in_words(const std::vector<print::Print>& prints, const std::vector<int>& take);

/// What most sets a set apart from the best one: "values less even and told apart better".
std::string difference_in_words(const Terms& other, const Terms& best, const Taste& taste);

/// "proven the best of 3,003 sets (521 branches opened)".
std::string proof_in_words(const ChooseReport& report);

}  // namespace farflung::choice
