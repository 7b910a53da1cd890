// An account as tables by module and by material, which add up to the last digit over panels too.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

inline constexpr std::string_view kByModule = "By module";
inline constexpr std::string_view kByMaterial = "By material, GWP-total";
/// Column of `kByMaterial` that holds A–C, and of the module D behind it.
inline constexpr std::size_t kWholeLifeColumn = 6;
inline constexpr std::size_t kBeyondColumn = 7;

/// Sum over the materials, and assembly on site for A5; none while one of the materials lacks the module. What is only
/// declared is the sum of what is there, none where nothing is.
std::optional<Gwp> module_sum(const PanelAccount& account, Module module);

/// `kByModule`: one row a module that is known whole, with the four indicators; D last.
Table module_table(const PanelAccount& account);
/// `kByMaterial`: one row a material with its groups of modules, and one for assembly on site. What A1–A3 took up
/// stands in a column of its own, so that it is never netted off unseen. An unknown module counts as nothing, so use it
/// of whole accounts only.
Table material_table(const PanelAccount& account);
/// A–C of one material in GWP-total, as its row of `material_table` states it.
double whole_life_of(const MaterialAccount& entry);

/// The sum of tables with the same columns: rows with the same first cell are added, in order of first appearance.
Table summed_tables(const std::vector<const Table*>& tables);
/// Sorts rows of a `kByModule` table into the order of modules.
void sort_by_module(Table& table);
/// Sorts rows of a `kByMaterial` table by falling A–C.
void sort_by_weight(Table& table);

/// Tables of that title in the panels' findings of that check, in the order of panels.
std::vector<const Table*> tables_of(const std::vector<PanelFindings>& panels, std::string_view check,
                                    std::string_view title);
/// The finding's table of that title, or null.
const Table* table_of(const Finding& finding, std::string_view title);

}  // namespace panel_dossier::carbon
