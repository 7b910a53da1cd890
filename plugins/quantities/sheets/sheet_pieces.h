// The sheets, slabs and cladding boards to cut, with the side that lies along the grain.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/sheets/sheet_nesting.h"

namespace panel_dossier::quantities {

struct FlatPiece {
  FlatSize size;        ///< of the space in the panel, `length` upright; `cut_size` gives what is cut
  double net_m2 = 0.0;  ///< of the face, less what is cut out of the blank
  std::string batch;    ///< of its panel; empty when not known
  PartKind kind = PartKind::sheet;
  std::string part_name;  ///< `part 'Sheathing 03' of panel 'S0-01'`
  std::string panel;      ///< mark
  std::string part_mark;  ///< as in the panel's cutting list
};

/// Pieces of one material and thickness.
using FlatGroup = std::pair<MaterialKey, Micrometres>;
using FlatGroups = std::map<FlatGroup, std::vector<FlatPiece>>;

/// Every part of kind sheet, insulation and cladding of the project. Panels with a part of unknown size are noted as
/// missing.
FlatGroups flat_pieces(FindingBuilder& finding, const Project& project, const Settings& settings);

/// Upright as in the panel where the blank is square to it, else the longer side along the grain.
FlatSize upright_size(const CutPart& cut, const Part& part);

/// Setting `quantities.insulation_oversize_m`; 0 with a note when it is not given.
Micrometres read_oversize(FindingBuilder& finding, const Settings& settings);

/// The size to cut for a space. Insulation is `oversize` larger both ways for a friction fit, but no larger than a
/// sheet that would hold it otherwise: a slab as wide as its space is used as it comes. Other parts are as their space.
FlatSize cut_size(const FlatSize& space, PartKind kind, Micrometres oversize, const SheetRules& rules);

/// Sheets of a material as the settings list them in `quantities.sheet_sizes_m`; notes what cannot be used. No size:
/// the material is not listed. None, and noted, when several materials of the export bear the name of an entry.
std::optional<SheetRules> sheet_rules(FindingBuilder& finding, const Project& project, const Settings& settings,
                                      const MaterialKey& material, Micrometres kerf);

}  // namespace panel_dossier::quantities
