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

void Settings::withhold(std::string_view key, std::string why) {
  const auto found = values_.find(key);
  if (found == values_.end()) return;
  withheld_.insert_or_assign(found->first, std::move(why));
  values_.erase(found);
}

std::optional<Sourced<double>> Settings::number(std::string_view key) const {
  return value_as<double>(values_, key);
}

std::optional<Sourced<bool>> Settings::logical(std::string_view key) const {
  return value_as<bool>(values_, key);
}

std::optional<Sourced<std::string>> Settings::text(std::string_view key) const {
  return value_as<std::string>(values_, key);
}

Origin settings_row_origin(const Settings& settings, const std::string& table, std::size_t row,
                           std::string_view column) {
  const std::string prefix = table + "." + std::to_string(row) + ".";
  const auto file = settings.text(table + "_file");
  const auto line = settings.number(prefix + "line");
  Origin origin;
  if (file && line) {
    origin.kind = OriginKind::data_table;
    origin.table = file->value;
    origin.row = "line " + std::to_string(static_cast<long long>(line->value));
    if (const auto source = settings.text(prefix + "source")) origin.source = source->value;
  } else {
    origin.kind = OriginKind::setting;
    origin.key = prefix + std::string(column);
  }
  return origin;
}

}  // namespace panel_dossier
