// Writes one object over what stood there before. For the sources of this module only.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "project/json.hpp"
#include "project/quilt_from_json.hpp"

namespace farflung::project {

/// A number as a person writes it: whole where it is whole.
Json number_json(double value);

/// The shortest decimal in these units that reads back as this very length.
Json length_json(Length length, quilt::Units units);

/// An object being written, key by key in the format's order.
class ObjectWriter {
 public:
  /// `original` is what stood there; null or of another kind where nothing did.
  ObjectWriter(const Json& original, quilt::Units units)
      : original_(original.is_object() ? original : nothing()), units_(units) {}

  /// What stood at a key; null where nothing did.
  const Json& before(const std::string& key) const;

  /// Writes a value unless it is the default and was not written before.
  void text(const std::string& key, const std::string& value, const std::string& otherwise);
  void number(const std::string& key, double value, double otherwise);
  void flag(const std::string& key, bool value, bool otherwise);
  void length(const std::string& key, Length value, std::optional<Length> otherwise);

  /// Writes a value always; what stood before stays where it means the same.
  void put(const std::string& key, Json value);
  void put_length(const std::string& key, Length value) { length(key, value, std::nullopt); }

  /// Writes a value if there is one; where there is none null stays null, and anything else goes.
  void put_if(const std::string& key, bool there, Json value);

  /// As it was, whatever it was: the value has not changed.
  void keep(const std::string& key);

  /// Keys that no call above named are kept after the others.
  Json finish() &&;

 private:
  static const Json& nothing();
  void name(const std::string& key) { named_.push_back(key); }

  const Json& original_;
  quilt::Units units_;
  Json object_ = Json::object();
  std::vector<std::string> named_;
};

/// Finds what stood before for the entries of a list that have ids, by id.
class OriginalsById {
 public:
  explicit OriginalsById(const Json& list);
  const Json& operator[](const std::string& id) const;

 private:
  std::unordered_map<std::string, const Json*> by_id_;
};

/// What stood at an index of a list; null where nothing did.
const Json& original_at(const Json& list, std::size_t index);

/// What stood at a key of an object; null where nothing did.
const Json& original_under(const Json& object, const std::string& key);

/// Numbers that mean the same are the same: 9 and 9.0.
bool same_meaning(const Json& a, const Json& b);

}  // namespace farflung::project
