#include "draw/picture.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/srgb.hpp"
#include "draw/grey.hpp"

namespace farflung::draw {
namespace {

constexpr int kLightSteps = 65535;

const std::array<float, 256>& light_of_level() {
  static const auto table = [] {
    std::array<float, 256> t{};
    for (int i = 0; i < 256; ++i) t[i] = static_cast<float>(colour::decoded(static_cast<std::uint8_t>(i)));
    return t;
  }();
  return table;
}

/// Nearest levels of light in steps of 1 / kLightSteps: at the dark end 20 steps to a level.
const std::vector<std::uint8_t>& level_of_light() {
  static const auto table = [] {
    std::vector<std::uint8_t> t;
    for (int i = 0; i <= kLightSteps; ++i) {
      t.push_back(
          static_cast<std::uint8_t>(std::lround(255 * colour::encoded(std::min(1.0, (i + 0.5) / kLightSteps)))));
    }
    return t;
  }();
  return table;
}

/// The share of each source pixel in a run of `to` averaged pixels: pixel i of the result covers [i, i + 1) * from /
/// to.
struct Share {
  int first = 0;
  std::vector<float> weights;
};

std::vector<Share> shares(int from, int to) {
  std::vector<Share> result(static_cast<std::size_t>(to));
  const double step = static_cast<double>(from) / to;
  for (int i = 0; i < to; ++i) {
    const double begin = i * step;
    const double end = std::min<double>(from, (i + 1) * step);
    Share& share = result[static_cast<std::size_t>(i)];
    share.first = std::min(from - 1, static_cast<int>(begin));
    for (int pixel = share.first; pixel < from && pixel < end; ++pixel) {
      share.weights.push_back(
          static_cast<float>((std::min<double>(end, pixel + 1) - std::max<double>(begin, pixel)) / step));
    }
  }
  return result;
}

double squared_difference(const std::uint8_t* a, const std::uint8_t* b) {
  double sum = 0;
  for (int c = 0; c < 3; ++c) sum += (a[c] - b[c]) * (a[c] - b[c]);
  return sum;
}

/// For each row the column at which to go from one picture to the other, neighbouring rows at most one column apart,
/// with the least sum of costs; it begins and ends at about the same column if `ring`.
std::vector<int> cheapest_path(const std::vector<std::vector<double>>& cost, bool ring) {
  const int rows = static_cast<int>(cost.size());
  const int columns = static_cast<int>(cost[0].size());
  const auto path_from = [&](int start) {
    std::vector<std::vector<double>> sum = cost;
    if (start >= 0) {
      for (int c = 0; c < columns; ++c) sum[0][c] = std::abs(c - start) <= 1 ? cost[0][c] : INFINITY;
    }
    for (int r = 1; r < rows; ++r) {
      for (int c = 0; c < columns; ++c) {
        double least = sum[r - 1][c];
        if (c > 0) least = std::min(least, sum[r - 1][c - 1]);
        if (c + 1 < columns) least = std::min(least, sum[r - 1][c + 1]);
        sum[r][c] += least;
      }
    }
    std::vector<int> path(static_cast<std::size_t>(rows));
    int at = start >= 0 ? start
                        : static_cast<int>(std::min_element(sum.back().begin(), sum.back().end()) - sum.back().begin());
    path[rows - 1] = at;
    for (int r = rows - 2; r >= 0; --r) {
      int best = at;
      for (int c = std::max(0, at - 1); c <= std::min(columns - 1, at + 1); ++c) {
        if (sum[r][c] < sum[r][best]) best = c;
      }
      path[r] = at = best;
    }
    return path;
  };
  const std::vector<int> free = path_from(-1);
  return ring ? path_from(free[rows / 2]) : free;
}

Picture transposed(const Picture& picture) {
  Picture result = blank(picture.height, picture.width);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < picture.width; ++x) std::copy_n(picture.at(x, y), 3, result.at(y, x));
  }
  return result;
}

/// How far to lap: between a tenth and a quarter of the width, where the middle of the lap agrees best with itself, so
/// that stripes, checks and rows of motifs go on in step.
int best_lap(const Picture& picture) {
  int best = picture.width / 8;
  double least = INFINITY;
  for (int lap = std::max(2, picture.width / 10); lap <= picture.width / 4; ++lap) {
    double sum = 0;
    const int middle = lap / 2;
    const int reach = std::max(1, lap / 10);
    const int stride = std::max(1, picture.height / 100);
    int count = 0;
    for (int y = 0; y < picture.height; y += stride) {
      for (int x = std::max(0, middle - reach); x <= std::min(lap - 1, middle + reach); ++x, ++count) {
        sum += squared_difference(picture.at(x, y), picture.at(picture.width - lap + x, y));
      }
    }
    if (sum / count < least - 1e-9) {
      least = sum / count;
      best = lap;
    }
  }
  return best;
}

/// Laps the right edge over the left: the result is `lap` narrower and repeats sideways. The cut is feathered and keeps
/// clear of both ends of the lap, so that there each side is wholly itself.
Picture lapped(const Picture& picture, bool ring) {
  const int lap = best_lap(picture);
  if (lap < 2) return picture;
  const int width = picture.width - lap;
  const int feather = std::max(1, lap / 10);
  std::vector<std::vector<double>> cost(static_cast<std::size_t>(picture.height));
  for (int y = 0; y < picture.height; ++y) {
    for (int x = feather; x <= lap - feather; ++x) {
      cost[y].push_back(squared_difference(picture.at(x, y), picture.at(width + x, y)));
    }
  }
  const std::vector<int> path = cheapest_path(cost, ring);
  Picture result = blank(width, picture.height);
  for (int y = 0; y < picture.height; ++y) {
    for (int x = 0; x < width; ++x) {
      // Near the left edge the far side goes on; past the cut the near side has begun.
      const double near = std::clamp(0.5 + (x - path[y] - feather) / (2.0 * feather), 0.0, 1.0);
      for (int c = 0; c < 3; ++c) {
        const double far = x < lap ? picture.at(width + x, y)[c] : 0;
        result.at(x, y)[c] = static_cast<std::uint8_t>(std::lround(near * picture.at(x, y)[c] + (1 - near) * far));
      }
    }
  }
  return result;
}

}  // namespace

Picture blank(int width, int height) {
  return {width, height, std::vector<std::uint8_t>(3 * static_cast<std::size_t>(width) * height)};
}

Picture reduced(const Picture& picture, int width) {
  if (picture.empty() || width >= picture.width || width < 1) return picture;
  const int height =
      std::max(1, static_cast<int>(std::lround(static_cast<double>(picture.height) * width / picture.width)));
  const std::vector<Share> across = shares(picture.width, width);
  const std::vector<Share> down = shares(picture.height, height);
  const std::array<float, 256>& light = light_of_level();
  const std::vector<std::uint8_t>& level = level_of_light();

  std::vector<float> rows(3 * static_cast<std::size_t>(width) * picture.height);
  for (int y = 0; y < picture.height; ++y) {
    float* to = &rows[3 * static_cast<std::size_t>(y) * width];
    for (int x = 0; x < width; ++x, to += 3) {
      const std::uint8_t* pixel = picture.at(across[x].first, y);
      for (const float weight : across[x].weights) {
        for (int c = 0; c < 3; ++c) to[c] += weight * light[*pixel++];
      }
    }
  }
  Picture result = blank(width, height);
  std::vector<float> sum(3 * static_cast<std::size_t>(width));
  for (int y = 0; y < height; ++y) {
    std::fill(sum.begin(), sum.end(), 0.0F);
    for (std::size_t i = 0; i < down[y].weights.size(); ++i) {
      const float* from = &rows[3 * (down[y].first + i) * width];
      for (std::size_t j = 0; j < sum.size(); ++j) sum[j] += down[y].weights[i] * from[j];
    }
    std::uint8_t* to = result.at(0, y);
    for (const float value : sum) *to++ = level[static_cast<std::size_t>(std::clamp(value, 0.0F, 1.0F) * kLightSteps)];
  }
  return result;
}

Picture repeating(const Picture& picture) {
  if (picture.empty()) return picture;
  return transposed(lapped(transposed(lapped(picture, false)), true));
}

Picture in_grey(const Picture& picture) {
  Picture result = picture;
  for (std::size_t i = 0; i + 2 < result.rgb.size(); i += 3) {
    std::uint8_t* pixel = &result.rgb[i];
    const std::uint8_t level = grey_of({pixel[0], pixel[1], pixel[2]});
    pixel[0] = pixel[1] = pixel[2] = level;
  }
  return result;
}

Swatches in_grey(const Swatches& swatches) {
  Swatches result;
  result.reserve(swatches.size());
  for (const Picture& swatch : swatches) result.push_back(in_grey(swatch));
  return result;
}

}  // namespace farflung::draw
