// Writes JSON with numbers in their shortest exact form. Private to the trace stage: callers get text.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

namespace panel_dossier {

/// The number as ECMAScript writes it, which RFC 8785 (2020), 3.2.2.3 takes over: the shortest decimal that reads back
/// as the same double. Throws std::runtime_error when it is not finite, for JSON has no word for that.
std::string shortest_number(double value);

/// Canonical form of RFC 8785: no white space, object members sorted by the UTF-16 code units of their names.
std::string canonical_json(const nlohmann::ordered_json& value);

/// An object member by member, so that a long list need not be held as JSON at once. Two-space indent; what holds no
/// list stands on one line; newline at the end.
class ObjectWriter {
 public:
  ObjectWriter();
  ObjectWriter(const ObjectWriter&) = delete;
  ObjectWriter& operator=(const ObjectWriter&) = delete;
  ~ObjectWriter();

  void member(std::string_view name, const nlohmann::ordered_json& value);
  void list(std::string_view name, std::size_t count, const std::function<nlohmann::ordered_json(std::size_t)>& item);
  /// Ends the object; the writer is spent.
  std::string take();

 private:
  struct State;
  std::unique_ptr<State> state_;

  void begin(std::string_view name);
};

}  // namespace panel_dossier
