// Quarter turns: the only way a block moves besides changing its place.
#pragma once

namespace farflung {

/// A turn by whole quarters, clockwise as seen from the front; never a mirror image.
///
///   Turn upside_down = Turn::quarters(2);
///   assert(upside_down + Turn::quarters(3) == Turn::quarters(1));
class Turn {
 public:
  static constexpr int kCount = 4;

  constexpr Turn() = default;
  static constexpr Turn quarters(int clockwise) { return Turn(((clockwise % kCount) + kCount) % kCount); }

  constexpr int quarters() const { return quarters_; }
  constexpr Turn back() const { return quarters(-quarters_); }

  friend constexpr bool operator==(Turn, Turn) = default;
  friend constexpr Turn operator+(Turn a, Turn b) { return quarters(a.quarters_ + b.quarters_); }

 private:
  explicit constexpr Turn(int quarters) : quarters_(quarters) {}

  int quarters_ = 0;
};

}  // namespace farflung
