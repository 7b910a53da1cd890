// JSON as results are read and written: members read with errors that say where, numbers written in their
// shortest exact form. Callers of the trace stage get text.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

/// The member, of the asked type. Throws std::runtime_error naming the member.
template <typename T>
T member(const nlohmann::ordered_json& object, const char* name) {
  if (!object.is_object() || !object.contains(name)) {
    throw std::runtime_error(std::string("member '") + name + "' is missing");
  }
  try {
    return object.at(name).get<T>();
  } catch (const nlohmann::json::exception&) {
    throw std::runtime_error(std::string("member '") + name + "' has another type than it should");
  }
}

/// The array member with every item read by `read`.
template <typename Read>
auto members(const nlohmann::ordered_json& object, const char* name, Read read) {
  if (!object.is_object() || !object.contains(name) || !object.at(name).is_array()) {
    throw std::runtime_error(std::string("member '") + name + "' is missing or not an array");
  }
  std::vector<decltype(read(object))> items;
  for (const auto& item : object.at(name)) items.push_back(read(item));
  return items;
}

/// An array with every item written by `write`.
template <typename Items, typename Write>
nlohmann::ordered_json json_array(const Items& items, Write write) {
  auto array = nlohmann::ordered_json::array();
  for (const auto& item : items) array.push_back(write(item));
  return array;
}

/// The enumerator whose word is the text of the member. Throws std::runtime_error naming both.
template <typename Enum, std::size_t count, typename ToWord>
Enum word_member(const nlohmann::ordered_json& object, const char* name, const Enum (&all)[count], ToWord to_word) {
  const auto word = member<std::string>(object, name);
  for (const Enum candidate : all) {
    if (to_word(candidate) == word) return candidate;
  }
  throw std::runtime_error(std::string("member '") + name + "' holds the unknown word '" + word + "'");
}

/// The number as ECMAScript writes it, which RFC 8785 (2020), 3.2.2.3 takes over: the shortest decimal that reads back
/// as the same double. Throws std::runtime_error when it is not finite, for JSON has no word for that.
std::string shortest_number(double value);

/// Canonical form of RFC 8785: no white space, object members sorted by the UTF-16 code units of their names.
std::string canonical_json(const nlohmann::ordered_json& value);

/// Takes a text piece by piece.
using TextSink = std::function<void(std::string_view)>;

/// An object member by member, so that neither a long list as JSON nor the whole text is held at once. Two-space
/// indent; what holds no list stands on one line; newline at the end.
class ObjectWriter {
 public:
  /// The sink must outlive the writer; what it throws comes through.
  explicit ObjectWriter(const TextSink& sink);
  ObjectWriter(const ObjectWriter&) = delete;
  ObjectWriter& operator=(const ObjectWriter&) = delete;
  ~ObjectWriter();

  void member(std::string_view name, const nlohmann::ordered_json& value);
  void list(std::string_view name, std::size_t count, const std::function<nlohmann::ordered_json(std::size_t)>& item);
  /// An object whose members are the items, each with its name.
  void object(std::string_view name, std::size_t count,
              const std::function<std::pair<std::string, nlohmann::ordered_json>(std::size_t)>& item);
  /// Ends the object and hands on what is left; the writer is spent.
  void end();

 private:
  struct State;
  std::unique_ptr<State> state_;

  void begin(std::string_view name);
};

}  // namespace panel_dossier
