#include "plugins/thermal/junctions/junction_check.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/fixed_text.h"
#include "plugins/thermal/junctions/surface_temperature.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/moisture/surface.h"

namespace panel_dossier::thermal {

namespace {

constexpr const char* kClause = "EN ISO 10211:2017 and EN ISO 14683:2017";

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
  return {junction.where,      detail,         junction.length_m, internal, external, line.psi_w_per_mk(),
          line.heat_w_per_k(), factor_of(line)};
}

Table junction_table(const PanelJunctionHeat& heat) {
  Table table{"Junctions",
              {{"junction", ""},
               {"detail", ""},
               {"l", "m"},
               {"Ψ_i", "W/(m·K)"},
               {"Ψ_e", "W/(m·K)"},
               {"Ψ", "W/(m·K)"},
               {"share · Ψ · l", "W/K"},
               {"f_Rsi", ""}},
              {}};
  for (const JunctionHeat& line : heat.lines) table.rows.push_back(row_of(line));
  return table;
}

Table point_table(const PanelJunctionHeat& heat) {
  Table table{"Corners crossed by a floor",
              {{"corner", ""}, {"share", ""}, {"L_3D", "W/K"}, {"χ_i", "W/K"}, {"χ", "W/K"}, {"f_Rsi", ""}},
              {}};
  for (const PointHeat& point : heat.points) {
    table.rows.push_back({point.point.where, point.point.share, point.result.l_3d_w_per_k,
                          point.result.chi_internal_w_per_k, point.result.chi_own_w_per_k,
                          point.result.temperature_factor});
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
bool is_known(const PanelJunctionHeat* heat, const std::string& reason, FindingBuilder& builder) {
  if (heat == nullptr) {
    builder.missing("thermal.u_value is not assessed: " + reason);
    return false;
  }
  for (const std::string& what : heat->missing) builder.missing(what);
  return !builder.incomplete();
}

}  // namespace

Finding check_linear_transmittance(const Panel& panel, const PanelJunctionHeat* heat, const std::string& reason) {
  FindingBuilder builder("thermal.linear_transmittance", "Heat through the junctions of the panel", panel.global_id,
                         kClause);
  if (!is_known(heat, reason, builder)) return builder.not_assessed();
  for (const Input& input : heat->inputs) {
    if (const double* value = std::get_if<double>(&input.value)) {
      builder.number(input.name, input.symbol, input.unit, Sourced<double>{*value, input.origin}, {});
    }
  }
  add_declared(*heat, builder);
  builder.table(junction_table(*heat));
  builder.step("junctions along lines", "ΣΨ·l", heat->lines_w_per_k(), "W/K", "Σ share · Ψ · l");
  if (!heat->points.empty()) {
    builder.table(point_table(*heat));
    builder.step("corners crossed by a floor", "Σχ", heat->points_w_per_k(), "W/K", "Σ share · χ");
  }
  builder.note(
      "Ψ goes with the panel's own width and height, Ψ_i with internal and Ψ_e with external dimensions. The details, "
      "their isotherms and assumptions stand under thermal.linear_transmittance of the whole project. Sole and "
      "thresholds of the lowest storey are left to the heat transfer to the ground (EN ISO 13370). Brackets and "
      "corners with a column are not included as points.");
  return builder.decimals(3).inform(heat->lines_w_per_k() + heat->points_w_per_k(), "W/K");
}

Finding check_junction_temperature(const Panel& panel, const Settings& settings, const Tables& tables,
                                   const PanelJunctionHeat* heat, const std::string& reason) {
  FindingBuilder builder("thermal.junction_temperature_factor", "Lowest temperature factor at the junctions worked out",
                         panel.global_id, "EN ISO 13788:2012, 5.3 with EN ISO 10211:2017");
  if (!is_known(heat, reason, builder)) return builder.not_assessed();
  const auto least = least_surface_factor(settings, tables, builder);
  const auto climate = read_climate(settings, tables, builder);
  if (!least || !climate) return builder.not_assessed();
  const auto demand = mould_demand(*climate);
  const double limit = std::max(*least, demand ? demand->factor : 0.0);
  if (demand) {
    builder.step("factor that " + std::string(kMonthNames[demand->month]) + " asks for against mould", "f_Rsi,min",
                 demand->factor, "", "as in thermal.surface_condensation");
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

}  // namespace panel_dossier::thermal
