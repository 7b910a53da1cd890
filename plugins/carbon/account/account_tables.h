// An account as tables by module and by material, which add up to the last digit over panels too.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// The modules that are known whole.
using ModuleSums = std::array<std::optional<Gwp>, kModules.size()>;

/// Sums over the materials, and assembly on site for A5; none while one of the materials lacks the module. What is only
/// declared is the sum of what is there, none where nothing is.
ModuleSums module_sums(const PanelAccount& account);
/// Adds module by module, exactly.
void add(ModuleSums& sums, const ModuleSums& more);
/// A to C; what is not known counts as nothing, so use it of whole accounts only.
Gwp whole_life(const ModuleSums& sums);

inline constexpr std::string_view kModulesTable = "modules";
/// `kModulesTable`: one row a module, with the four indicators; D last.
Table module_table(const ModuleSums& sums, std::string title);
/// What the table `kModulesTable` of the finding holds; nothing when it has none.
ModuleSums modules_in(const Finding& finding);

/// A to C of one material in GWP-total.
double whole_life_of(const MaterialAccount& entry);

/// What a row of a table by material belongs to: an index into `Project::materials`; none for assembly on site.
using RowMaterial = std::optional<std::size_t>;

/// `softwood (2)` or `assembly on site`.
std::string row_label(const Project& project, const RowMaterial& material);

/// Figures by material, in the order of their first appearance.
struct MaterialRows {
  std::vector<RowMaterial> materials;
  std::vector<std::vector<double>> cells;  ///< the columns behind the material's name

  /// The row of that material, or null.
  const std::vector<double>* find(std::size_t material) const;
  /// Sum of one column, exactly.
  double column_sum(std::size_t column) const;
};

inline constexpr std::string_view kMaterialsTable = "materials";
/// Adds the rows as table `kMaterialsTable` with the name of each material in front, and says in a value of the finding
/// which row is whose.
void add_material_table(FindingBuilder& builder, const Project& project, const MaterialRows& rows, std::string title,
                        std::vector<Column> columns);
/// The rows of the findings' tables `kMaterialsTable` with those of one material added, exactly. A finding without that
/// table, or whose values are withheld, is passed over.
MaterialRows sum_by_material(const std::vector<const Finding*>& findings);
/// The findings of that check, in the order of panels.
std::vector<const Finding*> findings_of(const std::vector<PanelFindings>& panels, const CheckDeclaration& check);

/// Columns of the account by material, behind the name.
enum class Share : std::size_t {
  product_less_biogenic,
  product_biogenic,
  construction,
  use,
  end_of_life,
  whole_life,
  beyond
};
inline std::size_t column_of(Share share) {
  return static_cast<std::size_t>(share);
}
std::vector<Column> share_columns();
/// One row a material with its groups of modules in GWP-total, and one for assembly on site. What A1–A3 took up stands
/// in a column of its own, so that it is never netted off unseen. An unknown module counts as nothing, so use it of
/// whole accounts only.
MaterialRows shares_of(const PanelAccount& account);

}  // namespace panel_dossier::carbon
