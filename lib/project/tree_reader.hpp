// Walks a tree without ever trusting its shape, and remembers the way for the problems it meets.
#pragma once

#include "project/json.hpp"

namespace farflung::project {

/// A place in a tree. What is not there, or is of another kind than asked for, reads as empty: the schema reports that.
class Place {
 public:
  explicit Place(const Json& root) : value_(&root) {}

  const Json& value() const { return *value_; }
  /// The JSON pointer of this place.
  const std::string& pointer() const { return pointer_; }
  /// Whether it is there and not null.
  bool given() const { return !value_->is_null(); }

  Place operator/(const std::string& key) const {
    static const Json kNothing;
    const auto found = value_->is_object() ? value_->find(key) : value_->end();
    const bool there = value_->is_object() && found != value_->end();
    return Place(there ? *found : kNothing, pointer_ + "/" + escaped_token(key));
  }

  /// The entries of a list; none where it is no list.
  std::vector<Place> items() const {
    std::vector<Place> items;
    if (!value_->is_array()) return items;
    items.reserve(value_->size());
    for (const Json& item : *value_) items.push_back(Place(item, pointer_ + "/" + std::to_string(items.size())));
    return items;
  }

  /// The entries of an object, in the file's order.
  std::vector<std::pair<std::string, Place>> entries() const {
    std::vector<std::pair<std::string, Place>> entries;
    if (!value_->is_object()) return entries;
    for (auto it = value_->begin(); it != value_->end(); ++it) {
      entries.emplace_back(it.key(), Place(*it, pointer_ + "/" + escaped_token(it.key())));
    }
    return entries;
  }

  std::size_t size() const { return value_->is_array() || value_->is_object() ? value_->size() : 0; }

  /// `otherwise` where the value is of another kind.
  std::string text(const std::string& otherwise = "") const {
    return value_->is_string() ? value_->get<std::string>() : otherwise;
  }
  double number(double otherwise) const { return value_->is_number() ? value_->get<double>() : otherwise; }
  bool flag(bool otherwise) const { return value_->is_boolean() ? value_->get<bool>() : otherwise; }

  /// A whole number within int; `otherwise` where it is none.
  int whole(int otherwise) const {
    if (!value_->is_number_integer()) return otherwise;
    const bool large = value_->is_number_unsigned() && value_->get<std::uint64_t>() > 2'000'000'000U;
    if (large) return 2'000'000'000;
    const auto number = value_->get<std::int64_t>();
    return number < -2'000'000'000 ? -2'000'000'000 : static_cast<int>(number);
  }

 private:
  Place(const Json& value, std::string pointer) : value_(&value), pointer_(std::move(pointer)) {}

  const Json* value_;
  std::string pointer_;
};

}  // namespace farflung::project
