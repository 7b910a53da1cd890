#include "core/trace/attribution.h"

#include <algorithm>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>

namespace panel_dossier {

namespace {

/// The part of a check id, or of a cause's name, before the separator.
std::string head_of(const std::string& text, char separator) {
  return text.substr(0, text.find(separator));
}

/// What tells an input from the others of its finding; the last member numbers those that share the rest.
using InputKey = std::tuple<std::string, std::string, std::size_t>;

struct InputSeen {
  const DerivationInput* input = nullptr;
  const Origin* origin = nullptr;
};

std::map<InputKey, InputSeen> inputs_of(const RecordedFinding* finding) {
  std::map<InputKey, InputSeen> seen;
  if (finding == nullptr) return seen;
  std::size_t own = 0;
  for (const DerivationInput& input : finding->derivation->inputs) {
    const Origin& origin = input.origin ? *input.origin : finding->origins.at(own++);
    std::size_t ordinal = 0;
    while (!seen.try_emplace({input.name, input.symbol, ordinal}, InputSeen{&input, &origin}).second) ++ordinal;
  }
  return seen;
}

/// Origins, in either build, of the inputs that differ.
std::vector<const Origin*> moved_origins(const RecordedFinding* before, const RecordedFinding* after) {
  const auto old_inputs = inputs_of(before);
  const auto new_inputs = inputs_of(after);
  std::vector<const Origin*> origins;
  for (const auto& [key, seen] : new_inputs) {
    const auto old = old_inputs.find(key);
    const bool is_new = old == old_inputs.end();
    if (!is_new && old->second.input->value == seen.input->value && old->second.input->unit == seen.input->unit) {
      continue;
    }
    origins.push_back(seen.origin);
    if (!is_new) origins.push_back(old->second.origin);
  }
  for (const auto& [key, seen] : old_inputs) {
    if (!new_inputs.contains(key)) origins.push_back(seen.origin);
  }
  return origins;
}

CauseIndices sorted_once(CauseIndices indices) {
  std::ranges::sort(indices);
  indices.erase(std::unique(indices.begin(), indices.end()), indices.end());
  return indices;
}

/// Groups of the settings that no check reads.
bool is_about_the_run(const std::string& setting) {
  const std::string group = head_of(setting, '.');
  return group == "plugins" || group == "changes";
}

}  // namespace

Attribution::Attribution(const std::vector<Cause>& causes) : causes_(causes) {
  for (std::size_t i = 0; i < causes.size(); ++i) {
    const Cause& cause = causes[i];
    switch (cause.kind) {
      case CauseKind::setting: settings_[cause.name] = i; break;
      case CauseKind::export_file: export_.push_back(i); break;
      case CauseKind::project_file:
      case CauseKind::evidence: tables_.emplace(cause.name, i); break;
      case CauseKind::data_table: tables_.emplace(cause.name.substr(cause.name.find('/') + 1), i); break;
      case CauseKind::settings_file:
      case CauseKind::plugin:
      case CauseKind::program: break;
    }
  }
}

void Attribution::add_origin(const Origin& origin, const std::string& discipline, CauseIndices& found) const {
  switch (origin.kind) {
    case OriginKind::export_file: found.insert(found.end(), export_.begin(), export_.end()); return;
    case OriginKind::setting:
      if (const auto cause = settings_.find(origin.key.str()); cause != settings_.end()) found.push_back(cause->second);
      return;
    case OriginKind::data_table:
    case OriginKind::input_table: break;
  }
  // A workbook is named with its sheet behind a comma.
  for (const std::string& file : {origin.table.str(), head_of(origin.table.str(), ',')}) {
    const auto [first, last] = tables_.equal_range(file);
    for (auto entry = first; entry != last; ++entry) {
      const Cause& cause = causes_[entry->second];
      // Two plugins may have a table of one name.
      if (cause.kind == CauseKind::data_table && head_of(cause.name, '/') != discipline) continue;
      found.push_back(entry->second);
    }
  }
}

void Attribution::add_named_evidence(const RecordedFinding* finding, CauseIndices& found) const {
  if (finding == nullptr) return;
  for (const DerivationInput& input : finding->derivation->inputs) {
    const auto* text = std::get_if<std::string>(&input.value);
    if (text == nullptr || text->empty()) continue;
    for (std::size_t i = 0; i < causes_.size(); ++i) {
      const Cause& cause = causes_[i];
      if (cause.kind == CauseKind::evidence && (cause.id == *text || cause.name == *text)) found.push_back(i);
    }
  }
}

bool Attribution::can_reach(const Cause& cause, const std::string& discipline) const {
  switch (cause.kind) {
    case CauseKind::setting: return !is_about_the_run(cause.name);
    case CauseKind::plugin:
    case CauseKind::data_table: return head_of(cause.name, '/') == discipline;
    case CauseKind::settings_file:
    case CauseKind::export_file:
    case CauseKind::project_file:
    case CauseKind::evidence:
    case CauseKind::program: break;
  }
  return true;
}

CauseIndices Attribution::causes_of(const RecordedFinding* before, const RecordedFinding* after) const {
  const std::string discipline = head_of((after != nullptr ? after : before)->check, '.');
  CauseIndices found;
  for (const Origin* origin : moved_origins(before, after)) add_origin(*origin, discipline, found);
  if (found.empty()) {
    add_named_evidence(before, found);
    add_named_evidence(after, found);
  }
  if (!found.empty()) return sorted_once(std::move(found));
  for (std::size_t i = 0; i < causes_.size(); ++i) {
    if (can_reach(causes_[i], discipline)) found.push_back(i);
  }
  return found.size() == 1 ? found : CauseIndices{};
}

CauseIndices Attribution::causes_of_panels() const {
  if (!export_.empty()) return export_;
  CauseIndices rules;
  for (const auto& [key, index] : settings_) {
    if (head_of(key, '.') == "intake") rules.push_back(index);
  }
  return rules;
}

}  // namespace panel_dossier
