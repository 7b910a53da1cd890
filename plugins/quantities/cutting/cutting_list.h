// The cutting list of a panel: equal pieces together, each line under a mark of its own.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

/// Equal pieces.
struct CuttingLine {
  std::string mark;  ///< unique in the panel: letters of the kind and a running number, `ST1`, `SH3`
  PartKind kind = PartKind::other;
  MaterialKey material;
  CutPart size;                    ///< as cut: insulation with its oversize
  std::vector<std::size_t> parts;  ///< indices into Panel::parts
  std::string shape;
  std::string holes;
};

/// `cut` of the panel in the order in which a workshop cuts: by kind, then large sections and long pieces first.
/// Rectangular pieces are one line when size, material and holes are the same; mitred ones when their solids are too;
/// other shapes stand alone. Notes holes that cannot be read and settings of insulation that cannot be used.
std::vector<CuttingLine> cutting_lines(FindingBuilder& finding, const Panel& panel, const Project& project,
                                       const Settings& settings, const std::vector<CutPart>& cut);

/// Mark of each part of the panel; empty for a part that is not cut.
std::vector<std::string> part_marks(const Panel& panel, const Project& project, const Settings& settings,
                                    const std::vector<CutPart>& cut);

}  // namespace panel_dossier::quantities
