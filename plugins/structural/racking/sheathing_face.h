// The structural sheathing on one face of a panel with the fasteners that fix it and the distances between them.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/fixings/fasteners.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Sheets of one product and thickness on one face, and one kind of fastener.
struct SheathingFace {
  bool inside = true;
  std::string product;                ///< row name: `OSB/3`, `P5`, `plywood`
  double thickness_m = 0.0;           ///< t
  std::vector<std::size_t> sheets;    ///< indices into Panel::parts
  std::size_t fastener = 0;           ///< likewise
  bool screws = false;                ///< else nails
  bool smooth = true;                 ///< nails alone
  double diameter_m = 0.0;            ///< nominal: for spacings and method B
  double effective_diameter_m = 0.0;  ///< def of 8.7.1(2) and (3) for screws, else the same
  double length_m = 0.0;
  double spacing_m = 0.0;                        ///< along the edges of the sheets
  std::optional<double> intermediate_spacing_m;  ///< on studs between the edges of a sheet
  double edge_distance_m = 0.0;                  ///< from the edge of a sheet
  double timber_density_kg_per_m3 = 0.0;
  double joint_stud_width_m = 0.0;   ///< of the narrowest stud
  bool sheets_meet_on_stud = false;  ///< two sheets side by side share a stud
  ShearPlane plane;
  std::array<FailureMode, 6> modes{};
  double timber_modification = 0.0;  ///< kmod of the timber for wind
  double panel_modification = 0.0;   ///< kmod of the panel for wind
  double panel_partial_factor = 0.0;
  double connection_partial_factor = 0.0;
  double panel_shear_pa = 0.0;  ///< fv,k; 0 when the tables do not hold the product
  std::vector<Input> inputs;

  double modification() const;  ///< √(kmod,1·kmod,2), EN 1995-1-1 (2.6)
  double resistance_n() const;  ///< Ff,Rd of one fastener
};

struct Sheathing {
  std::vector<SheathingFace> faces;  ///< inside first; faces without structural sheets are left out
  std::vector<std::string> missing;
};

/// Key of the product's row for this thickness in panel_products.csv; empty without one.
std::string product_row(const DataTable& products, const std::string& product, double thickness_mm);

/// Precondition: `design.missing` is empty. Gypsum boards are no structural sheathing here.
Sheathing read_sheathing(const Panel& panel, const Project& project, const Tables& tables, const StudDesign& design);

/// One rule; lengths in m.
struct DistanceRule {
  std::string name;
  std::string clause;  ///< of EN 1995-1-1: `8.3.1.3(1)`, `table 8.2`
  std::string detail;  ///< symbols, and what is no rule of that clause
  double value_m = 0.0;
  double limit_m = 0.0;
  bool at_least = true;
  double asked_m = 0.0;  ///< what the clause asks for where the limit is common practice below it; else 0

  bool kept() const { return at_least ? value_m >= limit_m : value_m <= limit_m; }
  /// Kept by common practice alone: a declaration of the fastener in this board would have to show it.
  bool open() const { return kept() && value_m < asked_m; }
};

/// The clauses of distance_rules(), each once.
std::vector<std::string> distance_clauses();

/// Fasteners along the edges of the sheets, without predrilled holes, timber up to 500 kg/m³, edges taken as unloaded
/// (9.2.4.2(5)). In a fixed order; d is the nominal diameter. The rule for studs between the edges needs the spacing.
std::vector<DistanceRule> distance_rules(const SheathingFace& face);

}  // namespace panel_dossier::structural
