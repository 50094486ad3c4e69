// Uneven dye, cloud and grain: fields of numbers that wrap round like the cloth.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "base/rng.hpp"
#include "simulator/canvas.hpp"

namespace farflung::simulator {

/// A coarse field drawn out to `size` by smooth curves, wrapped round. CV_32F in, CV_32F out.
cv::Mat drawn_out(const cv::Mat& coarse, cv::Size size);

/// Normal deviates, CV_32F.
cv::Mat deviates(cv::Size size, Rng& rng);

/// Cloudy: `octaves` of noise, the coarsest `grain` inches apart, each next one half as coarse and `persistence` as
/// strong. CV_32F of tile.pixels(), its 1st and 99th percentile about 0 and 1.
cv::Mat clouds(const Tile& tile, double grain, int octaves, double persistence, Rng& rng);

/// The field carried along by two others: place (x, y) shows what lay `strength` inches away. Any CV_32F picture.
cv::Mat stirred(const cv::Mat& picture, const Tile& tile, double grain, double strength, Rng& rng);

/// Linear RGB light by running through `inks` evenly as the field goes from 0 to 1.
cv::Mat dyed(const cv::Mat& field, const std::vector<Ink>& inks);

/// first + (second - first) x mask, channel by channel.
cv::Mat blended(const cv::Mat& first, const cv::Mat& second, const cv::Mat& mask);

/// A smooth step: 0 below `low`, 1 above `high`.
cv::Mat stepped(const cv::Mat& field, double low, double high);

}  // namespace farflung::simulator
