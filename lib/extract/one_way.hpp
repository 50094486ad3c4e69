// Whether a print's motifs all stand one way.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace farflung::extract {

/// Whether a half turn would show: whether a print's motifs, `side` pixels apart, all stand one way. Each part of the
/// swatch leans by what is found on one side of its colours and not on the other: a sail above its hull, a fin behind
/// its fish. Motifs tossed every way lean every way, symmetrical ones not at all; only where the parts agree by more
/// than chance, and lean enough to be seen, is a print said to stand one way. False too where the swatch shows too few
/// motifs to ask.
///
/// Where motifs stand in rows all alike, each has its vote; where a larger piece of the print comes again, what the
/// swatch shows a second time has no second vote.
bool stands_one_way(const std::vector<cv::Mat>& channels, double side);

}  // namespace farflung::extract
