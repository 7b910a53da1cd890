#include "plugins/thermal/junctions/linear_transmittance.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/thermal/check_inputs.h"
#include "plugins/thermal/junctions/conduction_detail_result.h"
#include "plugins/thermal/junctions/junction_heat.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/moisture/surface.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

std::vector<CheckInput> junction_inputs() {
  std::vector<CheckInput> own{property("Pset_MaterialThermal.ThermalConductivity"),
                              optional_property("Panel_Identity.Arrangement"),
                              optional_property("Panel_Junction.Head"),
                              optional_property("Panel_Junction.Sole"),
                              optional_property("Panel_Junction.Left"),
                              optional_property("Panel_Junction.Right"),
                              optional_property("Panel_Junction.HeadTransmittance"),
                              optional_property("Panel_Junction.SoleTransmittance"),
                              optional_property("Panel_Junction.LeftTransmittance"),
                              optional_property("Panel_Junction.RightTransmittance"),
                              optional_property("Panel_Junction.ParapetHeight"),
                              optional_property("Panel_Window.FrameTransmittance"),
                              optional_property("Panel_Window.FrameWidth"),
                              optional_setting("thermal.details.joint_width_m"),
                              optional_setting("thermal.details.joint_conductivity_w_per_mk"),
                              optional_setting("thermal.details.head_joint_width_m"),
                              optional_setting("thermal.details.slab_gap_m"),
                              optional_setting("thermal.details.slab_thickness_m"),
                              optional_setting("thermal.details.slab_conductivity_w_per_mk"),
                              optional_setting("thermal.details.slab_edge_setback_m"),
                              optional_setting("thermal.details.slab_edge_insulation_thickness_m"),
                              optional_setting("thermal.details.slab_edge_insulation_conductivity_w_per_mk"),
                              optional_setting("thermal.details.slab_edge_insulation_lap_m"),
                              optional_setting("thermal.details.column_width_m"),
                              optional_setting("thermal.details.column_depth_m"),
                              optional_setting("thermal.details.column_conductivity_w_per_mk"),
                              optional_setting("thermal.details.window_frame_depth_m"),
                              optional_setting("thermal.details.window_frame_width_m"),
                              optional_setting("thermal.details.window_frame_u_w_per_m2k"),
                              optional_setting("thermal.details.window_frame_offset_m"),
                              optional_setting("thermal.details.window_gap_m"),
                              optional_setting("thermal.details.window_gap_conductivity_w_per_mk"),
                              optional_setting("thermal.details.roof_slab_thickness_m"),
                              optional_setting("thermal.details.roof_slab_conductivity_w_per_mk"),
                              optional_setting("thermal.details.roof_insulation_thickness_m"),
                              optional_setting("thermal.details.roof_insulation_conductivity_w_per_mk"),
                              optional_setting("thermal.details.parapet_height_m"),
                              optional_setting("thermal.internal_temperature_c"),
                              optional_setting("thermal.external_temperature_c")};
  return resting_on(std::move(own), transmittance_inputs());
}

namespace {

constexpr const char* kHeatTransferUnit = "W/K";

std::vector<CheckInput> junction_temperature_inputs() {
  return resting_on(resting_on(least_factor_inputs(), climate_inputs()), junction_inputs());
}

Value factor_of(const JunctionHeat& line) {
  return line.result ? Value(line.result->temperature_factor) : Value();
}

std::vector<Value> row_of(const JunctionHeat& line) {
  const Junction& junction = line.junction;
  if (junction.left_to_ground) {
    return {junction.where, std::string("left to the ground floor"), junction.length_m, {}, {}, {}, {}, {}};
  }
  std::string detail = "declared";
  Value internal;
  Value external;
  if (line.result) {
    detail = std::string(conduction::to_string(*junction.kind)) + (junction.share < 1.0 ? ", half" : "");
    internal = line.result->psi_internal_w_per_mk;
    external = line.result->psi_external_w_per_mk;
  }
  return {junction.where,
          detail,
          junction.length_m,
          internal,
          external,
          line.psi_w_per_mk(),
          rounded_to_millionth(line.heat_w_per_k()),
          factor_of(line)};
}

Table junction_table(const PanelJunctionHeat& heat) {
  Table table{"Junctions",
              {{"junction", ""},
               {"detail", ""},
               {"l", "m"},
               {"Ψ_i", "W/(m·K)"},
               {"Ψ_e", "W/(m·K)"},
               {"Ψ", "W/(m·K)"},
               {"H_j", kHeatTransferUnit},
               {"f_Rsi", ""}},
              {}};
  for (const JunctionHeat& line : heat.lines) table.rows.push_back(row_of(line));
  return table;
}

Table point_table(const PanelJunctionHeat& heat) {
  Table table{"Corners crossed by a floor",
              {{"corner", ""},
               {"share", ""},
               {"L_3D", kHeatTransferUnit},
               {"χ_i", kHeatTransferUnit},
               {"χ", kHeatTransferUnit},
               {"H_k", kHeatTransferUnit},
               {"f_Rsi", ""}},
              {}};
  for (const PointHeat& point : heat.points) {
    table.rows.push_back({point.point.where, point.point.share, point.result.l_3d_w_per_k,
                          point.result.chi_internal_w_per_k, point.result.chi_own_w_per_k,
                          rounded_to_millionth(point.heat_w_per_k()), point.result.temperature_factor});
  }
  return table;
}

void add_declared(const PanelJunctionHeat& heat, FindingBuilder& builder) {
  for (const JunctionHeat& line : heat.lines) {
    if (!line.junction.declared_psi) continue;
    builder.number("declared linear transmittance of the " + line.junction.where, "Ψ", "W/(m·K)",
                   line.junction.declared_psi, {});
  }
}

struct Coldest {
  std::string where;
  double factor = 2.0;
  bool corner = false;
};

Coldest coldest(const PanelJunctionHeat& heat) {
  Coldest found;
  for (const JunctionHeat& line : heat.lines) {
    if (line.result && line.result->temperature_factor < found.factor) {
      found = {line.junction.where, line.result->temperature_factor, false};
    }
  }
  for (const PointHeat& point : heat.points) {
    if (point.result.temperature_factor < found.factor) {
      found = {point.point.where, point.result.temperature_factor, true};
    }
  }
  return found;
}

/// ` Not worked out: sole, head.`; empty when every junction has a factor.
std::string junctions_without_factor(const PanelJunctionHeat& heat) {
  std::string names;
  for (const JunctionHeat& line : heat.lines) {
    if (!line.result) names += (names.empty() ? " No factor is worked out for: " : ", ") + line.junction.where;
  }
  return names.empty() ? names : names + "; these need their own proof against mould.";
}

/// False when the builder must be closed as not assessed.
bool is_known(const PanelJunctionHeat* heat, const std::string& why_not, FindingBuilder& builder) {
  if (heat == nullptr) {
    builder.missing(why_not);
    return false;
  }
  for (const std::string& what : heat->missing) builder.missing(what);
  return !builder.incomplete();
}

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

const CheckDeclaration kLinearTransmittanceCheck{
    .id = "thermal.linear_transmittance",
    .title = "Heat through the junctions of the panel",
    .project_title = "Heat through the junctions of all panels",
    .sentence =
        "The value is the sum of Ψ times length over the junctions and of χ over the corners at floors, each "
        "with the share that belongs to the panel.",
    .clause = "EN ISO 10211:2017 and EN ISO 14683:2017",
    .units = {kHeatTransferUnit},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(junction_inputs()),
    .limits = {"Sole and thresholds of the lowest storey are left to the heat transfer to the ground (EN ISO 13370).",
               "Brackets and corners with a column are not included as points.",
               "Details are drawn up from the panel's layers and the settings; what stands there on site is not seen.",
               "Battens are left out of the details, and studs of the flanks belong to the plain area."}};

Finding check_linear_transmittance(const Panel& panel, const PanelJunctionHeat* heat, const std::string& why_not) {
  FindingBuilder builder(kLinearTransmittanceCheck, panel.global_id);
  if (!is_known(heat, why_not, builder)) return builder.not_assessed();
  for (const Input& input : heat->inputs) {
    if (const double* value = std::get_if<double>(&input.value)) {
      builder.number(input.name, input.symbol, input.unit, Sourced<double>{*value, input.origin}, {});
    }
  }
  add_declared(*heat, builder);
  builder.table(junction_table(*heat));
  builder.step("junctions along lines", "H_Ψ", heat->lines_w_per_k(), kHeatTransferUnit,
               heat->lines.empty() ? "" : "H_Ψ = sum(H_j)");
  if (!heat->points.empty()) {
    builder.table(point_table(*heat));
    builder.step("corners crossed by a floor", "H_χ", heat->points_w_per_k(), kHeatTransferUnit, "H_χ = sum(H_k)");
  }
  builder.note(
      "H_j is Ψ · l, of a detail shared with a neighbour half of it, and H_k the share of χ, each to a millionth. Ψ "
      "goes with the panel's own width and height, Ψ_i with internal and Ψ_e with external dimensions. The details, "
      "their isotherms and assumptions stand under thermal.linear_transmittance of the whole project. Sole and "
      "thresholds of the lowest storey are left to the heat transfer to the ground (EN ISO 13370). Brackets and "
      "corners with a column are not included as points.");
  return builder.decimals(3).inform(heat->lines_w_per_k() + heat->points_w_per_k(), kHeatTransferUnit);
}

const CheckDeclaration kJunctionTemperatureFactorCheck{
    .id = "thermal.junction_temperature_factor",
    .title = "Lowest temperature factor at the junctions worked out",
    .sentence =
        "The lowest f_Rsi of the junctions that have a calculated detail, with R_si = 0.25 m²·K/W, is at least "
        "the least factor of the jurisdiction and the greatest f_Rsi,min of all months against mould.",
    .clause = "EN ISO 13788:2012, 5.3 with EN ISO 10211:2017",
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = with_model(junction_temperature_inputs()),
    .limits = {"Junctions with a declared Ψ and those left to the ground have no factor and need their own proof.",
               "Window frames, glass edges and brackets are not assessed.",
               "The climate is that of mean months: a cold week in a mild month is not seen."}};

Finding check_junction_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const PanelJunctionHeat* heat, const std::string& why_not) {
  FindingBuilder builder(kJunctionTemperatureFactorCheck, panel.global_id);
  if (!is_known(heat, why_not, builder)) return builder.not_assessed();
  const auto least = least_surface_factor(settings, tables, builder);
  const auto climate = read_climate(settings, tables, builder);
  if (!least || !climate) return builder.not_assessed();
  const auto demand = mould_demand(*climate);
  const double limit = std::max(*least, demand ? demand->factor : 0.0);
  if (demand) {
    builder.step("factor that " + std::string(kMonthNames[demand->month]) +
                     " asks for against mould, as in thermal.surface_condensation",
                 "f_Rsi,min", demand->factor, "");
  }
  const Coldest worst = coldest(*heat);
  if (worst.where.empty()) return builder.not_assessed("no junction of this panel has a detail that is calculated");
  builder.step_text("coldest junction", worst.where);
  builder.step("internal surface resistance for mould growth", "R_si", conduction::kSurfaceMouldResistance_m2k_per_w,
               "m²·K/W");
  builder.note("Factors of all junctions stand in the table of thermal.linear_transmittance." +
               junctions_without_factor(*heat));
  return builder.decimals(3).judge(worst.factor, "", Relation::at_least, limit,
                                   "factor " + fixed_text(worst.factor, 3) + " at the " + worst.where + " is below " +
                                       fixed_text(limit, 3) + ": mould may grow there; the junction needs insulation");
}

Finding register_junctions(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                           const Tables& tables, conduction::DetailSolver& solver) {
  FindingBuilder builder(kLinearTransmittanceCheck, "");
  const PanelValues values = panel_values(panels, kLinearTransmittanceCheck.id);
  add_panels(project, values, kLinearTransmittanceCheck, builder);
  Register known;
  for (const PanelValue& entry : values.entries) {
    const auto transmittance = check_transmittance(*entry.panel, project, settings, tables).transmittance;
    if (!transmittance) continue;
    known.add(*entry.panel,
              junction_heat(*entry.panel, project, settings, tables, *transmittance, solver, JunctionsAsked::lines));
  }
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  builder.step("sum over these panels", "H", sum.total(), kHeatTransferUnit);
  builder.step("distinct details", "n_d", static_cast<double>(known.details().size()), "");
  if (!known.details().empty()) {
    builder.table(detail_table(known.details()));
    builder.table(accuracy_table(known.details()));
    add_notes(known.details(), builder);
    add_drawings(known.details(), settings, builder);
  }
  return builder.inform(sum.total(), kHeatTransferUnit);
}

}  // namespace panel_dossier::thermal
