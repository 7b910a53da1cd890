// The form of COBie 2.4: its sheets, their columns, and the pick lists from which columns take their values.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// What stands where there is nothing to say.
inline constexpr std::string_view kNotApplicable = "n/a";

struct CobieColumn {
  std::string name;
  std::string kind;  ///< `required`, `reference`, `external` or `if specified`
  std::string
      refers_to;  ///< `PickLists.DurationUnit`, `Floor.Name`, `Space.Name (list)`, `Name in SheetName`; or empty
};

struct CobieSheet {
  std::string name;
  std::vector<CobieColumn> columns;
};

struct PickList {
  std::string name;
  std::vector<std::string> values;
  /// One of the classification tables, which differ from region to region: any `code: title` may stand in it.
  bool is_regional = false;

  /// The list of IFC classes of a sheet (`objType`), to which a delivery may add classes of its own.
  bool is_of_classes() const { return name.starts_with("obj"); }
};

/// The sheets between Instruction and PickLists, in their order.
const std::vector<CobieSheet>& cobie_sheets();
/// In their order on the sheet PickLists.
const std::vector<PickList>& cobie_pick_lists();

}  // namespace panel_dossier
