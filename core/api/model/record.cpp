#include "core/api/model/record.h"

#include <algorithm>

namespace panel_dossier {

namespace {

template <typename T>
std::optional<Sourced<T>> cell_as(const PanelRecord& record, std::string_view column) {
  const auto found = std::find_if(record.values.begin(), record.values.end(),
                                  [column](const RecordValue& value) { return value.column == column; });
  if (found == record.values.end()) return std::nullopt;
  const T* value = std::get_if<T>(&found->value);
  if (value == nullptr) return std::nullopt;
  Sourced<T> sourced{*value, record.origin};
  sourced.origin.property = std::string(column);
  return sourced;
}

}  // namespace

std::optional<Sourced<double>> PanelRecord::number(std::string_view column) const {
  return cell_as<double>(*this, column);
}

std::optional<Sourced<std::string>> PanelRecord::text(std::string_view column) const {
  return cell_as<std::string>(*this, column);
}

std::string PanelRecord::words(std::string_view column) const {
  const auto found = text(column);
  return found ? found->value : std::string();
}

}  // namespace panel_dossier
