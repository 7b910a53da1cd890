#include "plugins/thermal/junctions/junction_register.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/thermal/junctions/conduction_detail_drawing.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

namespace {

constexpr std::string_view kCheck = "thermal.linear_transmittance";

/// A detail and where it stands.
struct RegisteredDetail {
  conduction::Detail detail;
  conduction::DetailResult result;
  std::vector<std::string> types;  ///< of panels, in the order met
  double length_m = 0.0;           ///< of all panels; a joint of two counts once
};

class Register {
 public:
  void add(const Panel& panel, const PanelJunctionHeat& heat) {
    for (const JunctionHeat& line : heat.lines) {
      if (!line.result) continue;
      RegisteredDetail& entry = find(*line.detail, *line.result);
      entry.length_m += line.junction.length_m * line.junction.share;
      if (std::find(entry.types.begin(), entry.types.end(), panel.type) == entry.types.end()) {
        entry.types.push_back(panel.type);
      }
    }
  }

  const std::vector<RegisteredDetail>& details() const { return details_; }

 private:
  std::vector<RegisteredDetail> details_;

  RegisteredDetail& find(const conduction::Detail& detail, const conduction::DetailResult& result) {
    // The solver gives equal models one solution, so its address tells details apart.
    const auto same = std::find_if(details_.begin(), details_.end(), [&](const RegisteredDetail& known) {
      return known.detail.kind == detail.kind && known.result.heat_flow == result.heat_flow;
    });
    if (same != details_.end()) return *same;
    details_.push_back({detail, result, {}, 0.0});
    return details_.back();
  }
};

std::string name_of(std::size_t index, const RegisteredDetail& entry) {
  return std::to_string(index + 1) + " " + std::string(conduction::to_string(entry.detail.kind));
}

Table detail_table(const std::vector<RegisteredDetail>& details) {
  Table table{"Junction details",
              {{"detail", ""},
               {"panel types", ""},
               {"l in all", "m"},
               {"L_2D", "W/(m·K)"},
               {"Ψ_i", "W/(m·K)"},
               {"Ψ_e", "W/(m·K)"},
               {"Ψ", "W/(m·K)"},
               {"f_Rsi", ""}},
              {}};
  for (std::size_t i = 0; i < details.size(); ++i) {
    const auto& result = details[i].result;
    table.rows.push_back({name_of(i, details[i]), joined(details[i].types), details[i].length_m, result.l_2d_w_per_mk,
                          result.psi_internal_w_per_mk, result.psi_external_w_per_mk, result.psi_own_w_per_mk,
                          result.temperature_factor});
  }
  return table;
}

Table accuracy_table(const std::vector<RegisteredDetail>& details) {
  Table table{"Accuracy of each detail",
              {{"detail", ""},
               {"cells", ""},
               {"heat flow when halved, at most 1", "%"},
               {"f_Rsi when halved, at most 0.0025", ""},
               {"imbalance of the flows, at most 0.01", "%"},
               {"flanks", ""}},
              {}};
  for (std::size_t i = 0; i < details.size(); ++i) {
    const conduction::Solution& flow = *details[i].result.heat_flow;
    std::vector<std::string> flanks;
    for (const conduction::Flank& flank : details[i].detail.flanks) flanks.push_back(flank.name);
    table.rows.push_back({name_of(i, details[i]), static_cast<double>(flow.grids.back().cells),
                          flow.heat_flow_change * 100.0, details[i].result.surface->temperature_factor_change,
                          flow.grids.back().imbalance * 100.0, joined(flanks)});
  }
  return table;
}

void add_drawings(const std::vector<RegisteredDetail>& details, const Settings& settings, FindingBuilder& builder) {
  const auto inside = settings.number("thermal.internal_temperature_c");
  const auto outside = settings.number("thermal.external_temperature_c");
  if (!inside || !outside || !(inside->value > outside->value)) {
    builder.note(
        "No isotherms: settings thermal.internal_temperature_c above thermal.external_temperature_c are needed.");
    return;
  }
  for (std::size_t i = 0; i < details.size(); ++i) {
    Drawing drawing = conduction::detail_drawing(details[i].detail, details[i].result, inside->value, outside->value);
    drawing.title = "Detail " + std::to_string(i + 1) + ", " + drawing.title;
    builder.drawing(std::move(drawing));
  }
}

/// What each kind of detail assumes, led by the numbers of its details.
void add_notes(const std::vector<RegisteredDetail>& details, FindingBuilder& builder) {
  std::vector<std::pair<std::string, std::string>> notes;  // text, and the details it belongs to
  for (std::size_t i = 0; i < details.size(); ++i) {
    for (const std::string& note : details[i].detail.notes) {
      auto known = std::find_if(notes.begin(), notes.end(), [&](const auto& entry) { return entry.first == note; });
      if (known == notes.end()) known = notes.insert(notes.end(), {note, ""});
      known->second += (known->second.empty() ? "" : ", ") + std::to_string(i + 1);
    }
  }
  for (const auto& [note, numbers] : notes) {
    std::string text = "Details ";
    builder.note(text.append(numbers).append(": ").append(note));
  }
}

}  // namespace

Finding register_junctions(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver) {
  FindingBuilder builder(std::string(kCheck), "Heat through the junctions of all panels", "",
                         "EN ISO 10211:2017 and EN ISO 14683:2017");
  const PanelValues values = panel_values(panels, kCheck);
  builder.number("panels in the sum", "n", "",
                 Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (!values.whole()) builder.missing(values.what_is_missing(kCheck));
  Register known;
  for (const PanelValue& entry : values.entries) {
    const auto transmittance = check_transmittance(*entry.panel, project, settings, tables).transmittance;
    if (!transmittance) continue;
    known.add(*entry.panel, junction_heat(*entry.panel, project, settings, tables, *transmittance, solver));
  }
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  builder.step("sum over these panels", "ΣΨ·l + Σχ", sum.total(), "W/K");
  builder.step("distinct details", "n", static_cast<double>(known.details().size()), "");
  if (!known.details().empty()) {
    builder.table(detail_table(known.details()));
    builder.table(accuracy_table(known.details()));
    add_notes(known.details(), builder);
    add_drawings(known.details(), settings, builder);
  }
  return builder.inform(sum.total(), "W/K");
}

}  // namespace panel_dossier::thermal
