#include "project/object_writer.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace farflung::project {

Json number_json(double value) {
  if (std::floor(value) == value && std::abs(value) < 1e15) return static_cast<std::int64_t>(value);
  return value;
}

Json length_json(Length length, quilt::Units units) {
  const double exact = quilt::in_units(length, units);
  double power = 1;
  for (int decimals = 0; decimals <= 9; ++decimals, power *= 10) {
    const double rounded = std::round(exact * power) / power;
    if (quilt::from_units(rounded, units) == length) return number_json(rounded);
  }
  return exact;
}

bool same_meaning(const Json& a, const Json& b) {
  if (a.is_array() && b.is_array()) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), same_meaning);
  }
  return a == b;
}

const Json& ObjectWriter::nothing() {
  static const Json kNothing;
  return kNothing;
}

const Json& ObjectWriter::before(const std::string& key) const { return original_under(original_, key); }

void ObjectWriter::text(const std::string& key, const std::string& value, const std::string& otherwise) {
  if (value == otherwise && !before(key).is_string()) return keep(key);
  put(key, value);
}

void ObjectWriter::number(const std::string& key, double value, double otherwise) {
  if (value == otherwise && !before(key).is_number()) return keep(key);
  put(key, number_json(value));
}

void ObjectWriter::flag(const std::string& key, bool value, bool otherwise) {
  if (value == otherwise && !before(key).is_boolean()) return keep(key);
  put(key, value);
}

void ObjectWriter::length(const std::string& key, Length value, std::optional<Length> otherwise) {
  const Json& old = before(key);
  const bool unchanged = old.is_null() ? value == otherwise : length_from_json(old, units_) == value;
  if (unchanged) return keep(key);
  put(key, length_json(value, units_));
}

void ObjectWriter::put(const std::string& key, Json value) {
  const Json& old = before(key);
  name(key);
  if (same_meaning(old, value)) {
    object_[key] = old;
  } else {
    object_[key] = std::move(value);
  }
}

void ObjectWriter::put_if(const std::string& key, bool there, Json value) {
  if (there) return put(key, std::move(value));
  name(key);
  if (original_.is_object() && original_.contains(key)) object_[key] = nullptr;
}

void ObjectWriter::keep(const std::string& key) {
  name(key);
  if (original_.is_object() && original_.contains(key)) object_[key] = original_[key];
}

Json ObjectWriter::finish() && {
  if (original_.is_object()) {
    for (auto it = original_.begin(); it != original_.end(); ++it) {
      if (std::find(named_.begin(), named_.end(), it.key()) == named_.end()) object_[it.key()] = *it;
    }
  }
  return std::move(object_);
}

OriginalsById::OriginalsById(const Json& list) {
  if (!list.is_array()) return;
  for (const Json& item : list) {
    if (item.is_object() && item.contains("id") && item["id"].is_string()) by_id_.emplace(item["id"], &item);
  }
}

const Json& OriginalsById::operator[](const std::string& id) const {
  static const Json kNothing;
  const auto found = by_id_.find(id);
  return found == by_id_.end() ? kNothing : *found->second;
}

const Json& original_at(const Json& list, std::size_t index) {
  static const Json kNothing;
  return list.is_array() && index < list.size() ? list[index] : kNothing;
}

const Json& original_under(const Json& object, const std::string& key) {
  static const Json kNothing;
  return object.is_object() && object.contains(key) ? object[key] : kNothing;
}

}  // namespace farflung::project
