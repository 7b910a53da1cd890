#include "core/trace/working.h"

#include <cctype>
#include <map>
#include <nlohmann/json.hpp>
#include <utility>

#include "core/intake/document/sha256.h"
#include "core/trace/finding_json.h"

namespace panel_dossier {

namespace {

/// Over the finding without its panel and the places of its inputs in the export.
Digest working_digest(Finding finding) {
  finding.panel.clear();
  for (Input& input : finding.inputs) {
    if (input.origin.kind != OriginKind::export_file) continue;
    input.origin.global_id = {};
    input.origin.line = 0;
    // A shape's property says on which line the last of its kind stands.
    std::string property = input.origin.property;
    std::erase_if(property, [](unsigned char c) { return std::isdigit(c) != 0; });
    input.origin.property = std::move(property);
  }
  return sha256(finding_to_json(finding).dump());
}

}  // namespace

std::vector<std::vector<std::optional<FindingPlace>>> earlier_workings(const std::vector<PanelSummary>& panels) {
  std::map<Digest, FindingPlace> known;
  std::vector<std::vector<std::optional<FindingPlace>>> earlier(panels.size());
  for (std::size_t panel = 0; panel < panels.size(); ++panel) {
    for (std::size_t finding = 0; finding < panels[panel].findings.size(); ++finding) {
      const FindingPlace here{panel, finding};
      const auto [place, is_new] = known.emplace(working_digest(panels[panel].findings[finding]), here);
      earlier[panel].push_back(is_new ? std::nullopt : std::optional(place->second));
    }
  }
  return earlier;
}

}  // namespace panel_dossier
