// Reads members of a results.json with errors that say where. Private to the trace stage.
#pragma once

#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
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

/// As `members`, for a member that results written by an earlier program do not have; none then.
template <typename Read>
auto optional_members(const nlohmann::ordered_json& object, const char* name, Read read) {
  if (object.is_object() && object.contains(name)) return members(object, name, read);
  return decltype(members(object, name, read)){};
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

}  // namespace panel_dossier
