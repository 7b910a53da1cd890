// Cutting plans of sheets and slabs as tables and drawings.
#pragma once

#include <string>
#include <vector>

#include "core/api/drawing.h"
#include "core/api/finding.h"
#include "plugins/quantities/sheet_nesting.h"

namespace panel_dossier::quantities {

/// A way to cut a sheet, and how often it is used. Sheets whose pieces lie alike are one layout, whatever part each is.
struct SheetLayout {
  CutSheet cut;
  int times = 0;
};

/// What is cut for one batch from sheets of one material and thickness.
struct SheetPlan {
  std::string material;
  Micrometres thickness = 0;
  std::string batch;  ///< empty when not known
  std::size_t pieces = 0;
  double net_m2 = 0.0;
  double bought_m2 = 0.0;
  double bound_m2 = 0.0;
  std::vector<SheetLayout> layouts;  ///< most used first
};

/// The layouts of a plan, most used first.
std::vector<SheetLayout> layouts_of(const std::vector<CutSheet>& sheets);

/// One row a material and thickness, all batches together.
Table sheet_table(const std::vector<SheetPlan>& plans);
/// One row a batch and material.
Table batch_table(const std::vector<SheetPlan>& plans);
/// One row for sheets cut into the same pieces, those drawn left out; pieces may lie differently.
Table layout_table(const std::vector<SheetPlan>& plans);
/// The layouts of most pieces, at most twelve, those of every material and thickness in turn.
std::vector<Drawing> layout_drawings(const std::vector<SheetPlan>& plans);

}  // namespace panel_dossier::quantities
