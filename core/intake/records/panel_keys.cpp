#include "core/intake/records/panel_keys.h"

#include <tuple>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::optional<std::size_t> entry_of(const std::map<std::string, std::size_t>& index, const std::string& key) {
  const auto found = index.find(key);
  return found == index.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

std::string PanelKeys::words() const {
  std::vector<std::string> texts;
  if (!mark.empty()) texts.push_back("mark '" + mark + "'");
  if (!serial.empty()) texts.push_back("serial number '" + serial + "'");
  if (!global_id.empty()) texts.push_back("GlobalId '" + global_id + "'");
  return joined(texts);
}

PanelIndex::PanelIndex(const Project& project) {
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    const Panel& panel = project.panels[i];
    mark_of_.push_back(panel.mark);
    marks_.emplace(panel.mark, i);
    global_ids_.emplace(panel.global_id, i);
    const auto serial = panel.properties.text("Pset_ManufacturerOccurrence", "SerialNumber");
    has_serial_.push_back(serial.has_value());
    if (!serial) continue;
    const std::string number(trimmed(serial->value));
    if (!serials_.emplace(number, i).second) shared_serials_.insert(number);
  }
}

NamedPanel PanelIndex::find(const PanelKeys& keys) const {
  if (shared_serials_.contains(keys.serial)) {
    return {std::nullopt, "serial number '" + keys.serial + "' is that of several panels of the export"};
  }
  NamedPanel named;
  std::string by;
  std::string unknown;
  for (const auto& [word, key, index] :
       {std::tuple("mark", &keys.mark, &marks_), std::tuple("serial number", &keys.serial, &serials_),
        std::tuple("GlobalId", &keys.global_id, &global_ids_)}) {
    if (key->empty()) continue;
    const std::string shown = std::string(word) + " '" + *key + "'";
    const auto panel = entry_of(*index, *key);
    if (!panel) {
      unknown = shown;
    } else if (!named.panel) {
      named.panel = panel;
      by = shown;
    } else if (*named.panel != *panel) {
      named.fault = joined(
          {by, " is panel '", mark_of_[*named.panel], "', but ", shown, " is panel '", mark_of_[*panel], "'"}, "");
    }
  }
  const bool is_new_serial = unknown.starts_with("serial") && named.panel && !has_serial_[*named.panel];
  if (named.fault.empty() && named.panel && !unknown.empty() && !is_new_serial) {
    named.fault = by + " is panel '" + mark_of_[*named.panel] + "', but " + unknown + " is no panel of the export";
  }
  if (!named.fault.empty()) named.panel.reset();
  return named;
}

}  // namespace panel_dossier
