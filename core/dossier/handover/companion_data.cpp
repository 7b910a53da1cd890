#include "core/dossier/handover/companion_data.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "core/api/support/text_encoding.h"
#include "core/dossier/handover/svg_drawing.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/elevation.h"
#include "core/dossier/parts/panel/panel_facts.h"
#include "core/trace/open_points.h"

namespace panel_dossier {

namespace {

using Json = nlohmann::ordered_json;

/// Each text once: panels of one type say much alike.
class SharedPageTexts {
 public:
  std::size_t operator()(const std::string& text) {
    const auto [found, is_new] = index_.try_emplace(visible_text(text), texts_.size());
    if (is_new) texts_.push_back(found->first);
    return found->second;
  }
  const std::vector<std::string>& texts() const { return texts_; }

 private:
  std::unordered_map<std::string, std::size_t> index_;
  std::vector<std::string> texts_;
};

/// A picture of some 300 × 400 units: on a telephone a unit is about a pixel, so its figures can be read.
std::string elevation_svg(const Panel& panel) {
  constexpr double kWidth = 270.0;
  constexpr double kHeight = 360.0;
  constexpr double kLargest = 150.0;  // units of one metre: of a narrow panel
  constexpr double kText = 9.0;
  // The dossier's figures are 6 points high, and its dimension lines stand as far apart as those need.
  constexpr double kAgainstDossier = kText / 6.0;
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  if (!(width_m > 0.0) || !(height_m > 0.0)) return {};
  const double units = std::min({kWidth / width_m, kHeight / height_m, kLargest});
  const double scale = kPointsPerMetre / units;
  return svg_of(elevation_drawing(panel, scale * kAgainstDossier), {units, kText});
}

std::string place_of(const Origin& origin) {
  if (origin.kind == OriginKind::input_table) return origin.table + ", row " + std::string(origin.row);
  return origin.line == 0 ? std::string() : "line " + std::to_string(origin.line);
}

std::string record_name(const std::string& table) {
  std::string name = table;
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

/// Production batch and batches of material, each once.
std::vector<std::string> batches_of_panel(const Project& project, const Panel& panel) {
  std::set<std::string> batches;
  for (const auto& [set, name] :
       {std::pair{"Panel_Identity", "Batch"}, std::pair{"Pset_ManufacturerOccurrence", "BatchReference"}}) {
    const Property* property = panel.properties.find(set, name);
    if (property != nullptr) batches.insert(property_text(*property));
  }
  for (const std::size_t batch : panel.batches) batches.insert(project.batches[batch].reference);
  return {batches.begin(), batches.end()};
}

class PanelRows {
 public:
  PanelRows(const HandoverContent& content, const CompanionPictures& pictures)
      : content_(content), pictures_(pictures) {}

  Json panel(std::size_t i) {
    const Panel& panel = content_.project().panels[i];
    const PanelSummary& summary = content_.results().panels[i];
    const Property* serial = panel.properties.find("Pset_ManufacturerOccurrence", "SerialNumber");
    Json row;
    row["id"] = visible_text(panel.global_id);
    row["mark"] = visible_text(panel.mark);
    row["type"] = text_(panel.type);
    row["storey"] = text_(summary.storey);
    row["building"] = text_(panel.building);
    row["serial"] = serial == nullptr ? std::string() : visible_text(property_text(*serial));
    row["batches"] = list(batches_of_panel(content_.project(), panel));
    row["facts"] = facts(identity_facts(content_.dossier, panel));
    row["figures"] = facts(figure_facts(content_.dossier, panel, summary));
    row["rules"] = list(drilling_rules(content_.dossier, panel, summary));
    row["fixings"] = list(fixings_in_words(panel));
    row["open"] = open(summary);
    row["inspections"] = inspections(i);
    row["records"] = records(panel);
    row["missing"] = text_(missing_in_elevation(panel));
    row["picture"] = pictures_.of_panel[i];
    row["page"] = page(i);
    return row;
  }

  const std::vector<std::string>& texts() const { return text_.texts(); }

 private:
  const HandoverContent& content_;
  const CompanionPictures& pictures_;
  SharedPageTexts text_;

  Json list(const std::vector<std::string>& texts) {
    Json indexes = Json::array();
    for (const std::string& text : texts) indexes.push_back(text_(text));
    return indexes;
  }

  Json facts(const std::vector<Fact>& facts) {
    Json rows = Json::array();
    for (const Fact& fact : facts) rows.push_back({text_(fact.name), text_(fact.value)});
    return rows;
  }

  Json open(const PanelSummary& summary) {
    Json rows = Json::array();
    for (const OpenPoint& point : open_points_of(summary))
      rows.push_back(
          {text_(std::string(to_string(point.verdict))), text_(point.title), text_(point.what), text_(point.who)});
    return rows;
  }

  Json inspections(std::size_t i) {
    Json rows = Json::array();
    if (i >= content_.inspections.size()) return rows;
    for (const DatedInspection& entry : content_.inspections[i])
      rows.push_back({text_(entry.day), text_(entry.what), text_(entry.source)});
    return rows;
  }

  Json records(const Panel& panel) {
    Json rows = Json::array();
    for (const PanelRecord& record : panel.records) {
      rows.push_back({text_(record.day), text_(record_name(record.table)), text_(record.what), text_(record.by),
                      text_(place_of(record.origin))});
    }
    return rows;
  }

  Json page(std::size_t i) const {
    if (i >= content_.pages.size() || content_.pages[i].number == 0) return nullptr;
    const PanelPage& page = content_.pages[i];
    return {page.file, page.label, page.number};
  }
};

}  // namespace

CompanionPictures companion_pictures(const Project& project, std::size_t most_bytes) {
  CompanionPictures pictures;
  std::unordered_map<std::string, int> known;
  std::size_t bytes = 0;
  for (const Panel& panel : project.panels) {
    std::string svg = elevation_svg(panel);
    pictures.of_panel.push_back(-1);
    if (svg.empty()) continue;
    const auto found = known.find(svg);
    if (found != known.end()) {
      pictures.of_panel.back() = found->second;
    } else if (bytes + svg.size() <= most_bytes) {
      bytes += svg.size();
      pictures.of_panel.back() = static_cast<int>(pictures.svg.size());
      known.emplace(svg, pictures.of_panel.back());
      pictures.svg.push_back(std::move(svg));
    } else {
      ++pictures.left_out;
    }
  }
  return pictures;
}

std::string companion_json(const HandoverContent& content, const CompanionPictures& pictures) {
  const BuildSummary& build = content.results().build;
  Json page;
  page["project"] = {{"name", visible_text(content.project().name)},
                     {"build", build.time_utc},
                     {"issue", visible_text(build.issue.id)},
                     {"picturesLeftOut", pictures.left_out > 0}};
  PanelRows rows(content, pictures);
  Json panels = Json::array();
  for (std::size_t i = 0; i < content.project().panels.size(); ++i) panels.push_back(rows.panel(i));
  page["panels"] = std::move(panels);
  page["texts"] = rows.texts();
  return page.dump();
}

}  // namespace panel_dossier
