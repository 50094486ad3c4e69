#include "score/meetings.hpp"

#include <utility>

namespace farflung::score {
namespace {

void add_contact(const setting::PatchContact& contact, double pitch, Meeting& meeting) {
  const double seam = contact.seam.inches() / pitch;
  meeting.seams += seam > 0 ? 1 : 0;
  meeting.points += seam > 0 ? 0 : 1;
  meeting.length += seam;
}

std::vector<Meeting> turned_round(std::span<const Meeting> meetings) {
  std::vector<Meeting> result(meetings.begin(), meetings.end());
  for (Meeting& meeting : result) std::swap(meeting.slot, meeting.other);
  return result;
}

}  // namespace

Meetings::Meetings(const quilt::Quilt& quilt, const setting::Plan& plan)
    : contacts_(plan, quilt.patterns), patterns_(static_cast<int>(quilt.patterns.size())) {
  neighbours_.resize(plan.cells.size());
  for (const setting::CellPair& pair : contacts_.pairs()) {
    neighbours_[pair.first].push_back({pair.second, pair.relation, true});
    neighbours_[pair.second].push_back({pair.first, pair.relation, false});
  }
  gather_between(quilt, plan.pitch);
  gather_with_frame(quilt, plan);
}

std::size_t Meetings::index(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const {
  const std::size_t a = static_cast<std::size_t>(relation) * patterns_ + pattern_a;
  const std::size_t b = (a * Turn::kCount + turn_a.quarters()) * patterns_ + pattern_b;
  return b * Turn::kCount + turn_b.quarters();
}

std::span<const Meeting> Meetings::listed(Range range) const {
  return {meetings_.data() + range.begin, meetings_.data() + range.end};
}

/// Appends the contacts, those of the same two slots as one.
Meetings::Range Meetings::gather(const std::vector<Meeting>& contacts) {
  Range range{static_cast<int>(meetings_.size()), static_cast<int>(meetings_.size())};
  for (const Meeting& contact : contacts) {
    bool known = false;
    for (int k = range.begin; k < range.end && !known; ++k) {
      Meeting& meeting = meetings_[k];
      if (meeting.slot != contact.slot || meeting.other != contact.other) continue;
      meeting.seams += contact.seams;
      meeting.points += contact.points;
      meeting.length += contact.length;
      known = true;
    }
    if (known) continue;
    meetings_.push_back(contact);
    ++range.end;
  }
  return range;
}

void Meetings::gather_between(const quilt::Quilt& quilt, double pitch) {
  const std::size_t count = static_cast<std::size_t>(relations()) * patterns_ * Turn::kCount * patterns_ * Turn::kCount;
  between_.resize(count);
  reversed_.resize(count);
  for (int relation = 0; relation < relations(); ++relation) {
    for (int a = 0; a < patterns_; ++a) {
      for (const Turn turn_a : quilt.patterns[a].turns) {
        for (int b = 0; b < patterns_; ++b) {
          for (const Turn turn_b : quilt.patterns[b].turns) {
            std::vector<Meeting> found;
            for (const setting::PatchContact& contact : contacts_.between(relation, a, turn_a, b, turn_b)) {
              Meeting meeting;
              meeting.slot = quilt.patterns[a].patches[contact.patch_a].slot;
              meeting.other = quilt.patterns[b].patches[contact.patch_b].slot;
              meeting.free =
                  quilt.patterns[a].slots[meeting.slot].may_touch && quilt.patterns[b].slots[meeting.other].may_touch;
              add_contact(contact, pitch, meeting);
              found.push_back(meeting);
            }
            const std::size_t at = index(relation, a, turn_a, b, turn_b);
            between_[at] = gather(found);
            reversed_[at] = gather(turned_round(listed(between_[at])));
          }
        }
      }
    }
  }
}

void Meetings::gather_with_frame(const quilt::Quilt& quilt, const setting::Plan& plan) {
  with_frame_.resize(plan.cells.size() * patterns_ * Turn::kCount);
  for (int cell = 0; cell < static_cast<int>(plan.cells.size()); ++cell) {
    for (int p = 0; p < patterns_; ++p) {
      for (const Turn turn : quilt.patterns[p].turns) {
        std::vector<Meeting> found;
        for (const setting::PatchContact& contact : contacts_.with_frame(cell, p, turn)) {
          Meeting meeting;
          meeting.slot = quilt.patterns[p].patches[contact.patch_a].slot;
          meeting.other = plan.frame[contact.patch_b].print;
          meeting.free = quilt.patterns[p].slots[meeting.slot].may_touch;
          add_contact(contact, plan.pitch, meeting);
          if (meeting.other != kNone) found.push_back(meeting);
        }
        with_frame_[(static_cast<std::size_t>(cell) * patterns_ + p) * Turn::kCount + turn.quarters()] = gather(found);
      }
    }
  }
}

std::span<const Meeting> Meetings::between(int relation, int pattern_a, Turn turn_a, int pattern_b, Turn turn_b) const {
  return listed(between_[index(relation, pattern_a, turn_a, pattern_b, turn_b)]);
}

std::span<const Meeting> Meetings::towards(const Neighbour& neighbour, int pattern, Turn turn, int pattern_there,
                                           Turn turn_there) const {
  if (neighbour.first) return between(neighbour.relation, pattern, turn, pattern_there, turn_there);
  return listed(reversed_[index(neighbour.relation, pattern_there, turn_there, pattern, turn)]);
}

std::span<const Meeting> Meetings::with_frame(int cell, int pattern, Turn turn) const {
  return listed(with_frame_[(static_cast<std::size_t>(cell) * patterns_ + pattern) * Turn::kCount + turn.quarters()]);
}

}  // namespace farflung::score
