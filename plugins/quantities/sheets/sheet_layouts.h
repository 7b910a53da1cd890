// The ways in which the sheets of a plan are cut, in tables and as drawings, and what is left of a sheet when its
// pieces are cut.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/sheets/sheet_nesting.h"

namespace panel_dossier::quantities {

/// Which part a piece becomes.
struct PieceName {
  std::string panel;      ///< mark
  std::string part_mark;  ///< as in the panel's cutting list and on the part's label

  std::string label() const { return panel + "/" + part_mark; }
};

/// The parts that lie in one place on the sheets of a layout.
struct LaidParts {
  PieceName first;         ///< on the first sheet
  std::size_t others = 0;  ///< different ones on the other sheets
};

/// A way to cut a sheet, and how often it is used. Sheets whose pieces lie alike are one layout, whatever part each is.
struct SheetLayout {
  CutSheet cut;  ///< pieces by their place, from the lower left
  int times = 0;
  std::vector<LaidParts> parts;  ///< by piece of `cut`
};

/// What is cut for one batch from sheets of one material and thickness.
struct SheetPlan {
  MaterialKey material;
  Micrometres thickness = 0;
  std::string batch;  ///< empty when not known
  Micrometres kerf = 0;
  std::size_t pieces = 0;
  double net_m2 = 0.0;
  double bought_m2 = 0.0;
  double bound_m2 = 0.0;
  std::vector<SheetLayout> layouts;  ///< most used first
};

/// The layouts of a plan, most used first. `names` by piece as nested.
std::vector<SheetLayout> layouts_of(const std::vector<CutSheet>& sheets, const std::vector<PieceName>& names);

/// A layout of one of the plans.
struct LayoutPlace {
  const SheetPlan* plan = nullptr;
  const SheetLayout* layout = nullptr;
};

/// The layouts to draw: those of most pieces, at most twelve, of every material and thickness in turn.
std::vector<LayoutPlace> layouts_drawn(const std::vector<SheetPlan>& plans);

/// One row for sheets cut into the same pieces, those drawn left out; pieces may lie differently. At most `listed`
/// rows, those of most sheets, and one that counts the rest.
Table layout_table(const Project& project, const std::vector<SheetPlan>& plans, std::optional<std::size_t> listed);

/// `1200 × 2400`.
std::string size_text(const FlatSize& size);

/// A rectangle of the sheet that no piece takes; `x` and `y` from the sheet's corner.
struct Offcut {
  Micrometres x = 0;
  Micrometres y = 0;
  FlatSize size;
};

/// The rectangles that fall off as the sheet is cut from edge to edge, a kerf wide each cut; without those that the
/// saw turns to dust. In the order of cutting, lower and left first. Precondition: the pieces can be parted by cuts
/// from edge to edge, as `nest_sheets` places them.
std::vector<Offcut> offcuts_of(const CutSheet& cut, Micrometres kerf);

/// The layouts that `layouts_drawn` chooses. Pieces bear panel and part mark as on their labels, `+2` when two more
/// parts lie there on the other sheets of the layout. Pieces of the panel whose piece is the largest are plain; those
/// of other panels, cut from what it leaves, are hatched; what is left over is crossed. Dimensions are of the sheet and
/// of the pieces along its lower and left edge.
std::vector<Drawing> layout_drawings(const Project& project, const std::vector<SheetPlan>& plans);

}  // namespace panel_dossier::quantities
