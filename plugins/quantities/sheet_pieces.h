// The sheets, slabs and cladding boards to cut, with the side that lies along the grain.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding_builder.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/quantities/sheet_nesting.h"

namespace panel_dossier::quantities {

struct FlatPiece {
  FlatSize size;          ///< blank to cut; `length` upright in the panel
  double net_m2 = 0.0;    ///< of the face, less what is cut out of the blank
  std::string batch;      ///< of its panel; empty when not known
  std::string part_name;  ///< `part 'Sheathing 03' of panel 'S0-01'`
};

/// Pieces of one material and thickness.
using FlatGroup = std::pair<std::string, Micrometres>;
using FlatGroups = std::map<FlatGroup, std::vector<FlatPiece>>;

/// Every part of kind sheet, insulation and cladding of the project. Insulation is `oversize` larger both ways.
/// Panels with a part of unknown size are noted as missing.
FlatGroups flat_pieces(FindingBuilder& finding, const Project& project, const Settings& settings, Micrometres oversize);

/// Sheets of a material as the settings list them in `quantities.sheet_sizes_m`; notes what cannot be used. No size:
/// the material is not listed.
SheetRules sheet_rules(FindingBuilder& finding, const Settings& settings, const std::string& material,
                       Micrometres kerf);

}  // namespace panel_dossier::quantities
