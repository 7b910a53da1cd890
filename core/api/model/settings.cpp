#include "core/api/model/settings.h"

namespace panel_dossier {

namespace {

template <typename T>
std::optional<Sourced<T>> value_as(const std::map<std::string, Settings::Value, std::less<>>& values,
                                   std::string_view key) {
  const auto found = values.find(key);
  if (found == values.end()) return std::nullopt;
  const T* value = std::get_if<T>(&found->second);
  if (value == nullptr) return std::nullopt;
  Origin origin;
  origin.kind = OriginKind::setting;
  origin.key = std::string(key);
  return Sourced<T>{*value, origin};
}

}  // namespace

std::optional<Sourced<double>> Settings::number(std::string_view key) const {
  return value_as<double>(values_, key);
}

std::optional<Sourced<bool>> Settings::logical(std::string_view key) const {
  return value_as<bool>(values_, key);
}

std::optional<Sourced<std::string>> Settings::text(std::string_view key) const {
  return value_as<std::string>(values_, key);
}

}  // namespace panel_dossier
