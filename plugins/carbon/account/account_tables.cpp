#include "plugins/carbon/account/account_tables.h"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::array kConstruction{Module::a4, Module::a5};
constexpr std::array kUse{Module::b1, Module::b2, Module::b3, Module::b4, Module::b5};

/// Value of a finding: the materials of the rows of its table by material, as `3 0 -`.
constexpr const char* kRowMaterials = "row_materials";
constexpr char kNoMaterial = '-';

Gwp known(const MaterialAccount& entry, Module module) {
  return entry.at(module).value_or(Gwp{});
}

template <std::size_t N>
double total_of(const MaterialAccount& entry, const std::array<Module, N>& modules) {
  Gwp sum;
  for (const Module module : modules) sum += known(entry, module);
  return sum.total();
}

std::vector<double> shares_in(const MaterialAccount& entry) {
  return {known(entry, Module::a1_a3).fossil_and_luluc(),
          known(entry, Module::a1_a3).biogenic,
          total_of(entry, kConstruction),
          total_of(entry, kUse),
          total_of(entry, kEndOfLife),
          whole_life_of(entry),
          known(entry, Module::d).total()};
}

std::optional<Gwp> module_sum(const PanelAccount& account, Module module) {
  Gwp sum;
  bool any = false;
  for (const MaterialAccount& entry : account.materials) {
    any = any || entry.at(module);
    if (!entry.at(module) && !is_only_declared(module)) return std::nullopt;
    sum += known(entry, module);
  }
  if (!any) return std::nullopt;
  if (module == Module::a5) {
    if (!account.site_assembly) return std::nullopt;
    sum += *account.site_assembly;
  }
  return sum;
}

std::string written(const std::vector<RowMaterial>& materials) {
  std::string text;
  for (const RowMaterial& material : materials) {
    if (!text.empty()) text += ' ';
    text += material ? std::to_string(*material) : std::string(1, kNoMaterial);
  }
  return text;
}

bool has_value(const Finding& finding, std::string_view id) {
  return std::any_of(finding.values.begin(), finding.values.end(),
                     [id](const NamedValue& value) { return value.id == id; });
}

std::vector<RowMaterial> row_materials_of(const Finding& finding) {
  std::vector<RowMaterial> materials;
  const std::string& text = text_of(finding, kRowMaterials);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    materials.push_back(word.front() == kNoMaterial ? RowMaterial() : RowMaterial(std::stoul(word)));
    at = end + 1;
  }
  return materials;
}

}  // namespace

ModuleSums module_sums(const PanelAccount& account) {
  ModuleSums sums;
  for (std::size_t i = 0; i < kModules.size(); ++i) sums[i] = module_sum(account, kModules[i]);
  return sums;
}

void add(ModuleSums& sums, const ModuleSums& more) {
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (!more[i]) continue;
    if (!sums[i]) sums[i] = Gwp{};
    *sums[i] += *more[i];
  }
}

Gwp whole_life(const ModuleSums& sums) {
  Gwp sum;
  for (std::size_t i = 0; i < kModules.size(); ++i) {
    if (kModules[i] != Module::d) sum += sums[i].value_or(Gwp{});
  }
  return sum;
}

Table module_table(const ModuleSums& sums, std::string title) {
  Table table{std::move(title),
              {{"module", ""},
               {"GWP-fossil", "kg CO2e"},
               {"GWP-biogenic", "kg CO2e"},
               {"GWP-luluc", "kg CO2e"},
               {"GWP-total", "kg CO2e"}},
              {},
              std::string(kModulesTable)};
  for (std::size_t i = 0; i < kModules.size(); ++i) {
    if (!sums[i]) continue;
    table.rows.push_back({std::string(name_of(kModules[i]).printed), sums[i]->fossil, sums[i]->biogenic, sums[i]->luluc,
                          sums[i]->total()});
  }
  return table;
}

ModuleSums modules_in(const Finding& finding) {
  ModuleSums sums;
  const Table* table = find_table(finding, kModulesTable);
  if (table == nullptr) return sums;
  for (const std::vector<Value>& row : table->rows) {
    const Module module = module_printed(std::get<std::string>(row.at(0)));
    sums.at(static_cast<std::size_t>(module)) =
        Gwp{std::get<double>(row.at(1)), std::get<double>(row.at(2)), std::get<double>(row.at(3))};
  }
  return sums;
}

double whole_life_of(const MaterialAccount& entry) {
  return whole_life(entry.modules).total();
}

const std::vector<double>* MaterialRows::find(std::size_t material) const {
  const auto found = std::find(materials.begin(), materials.end(), RowMaterial(material));
  return found == materials.end() ? nullptr : &cells[static_cast<std::size_t>(found - materials.begin())];
}

double MaterialRows::column_sum(std::size_t column) const {
  ExactSum sum;
  for (const std::vector<double>& row : cells) sum.add(row.at(column));
  return sum.total();
}

std::string row_label(const Project& project, const RowMaterial& material) {
  return material ? label_of(project, *material) : "assembly on site";
}

void add_material_table(FindingBuilder& builder, const Project& project, const MaterialRows& rows, std::string title,
                        std::vector<Column> columns) {
  Table table{std::move(title), std::move(columns), {}, std::string(kMaterialsTable)};
  for (std::size_t i = 0; i < rows.materials.size(); ++i) {
    std::vector<Value> row{row_label(project, rows.materials[i])};
    row.insert(row.end(), rows.cells[i].begin(), rows.cells[i].end());
    table.rows.push_back(std::move(row));
  }
  builder.table(std::move(table)).value_text(kRowMaterials, written(rows.materials));
}

MaterialRows sum_by_material(const std::vector<const Finding*>& findings) {
  MaterialRows result;
  std::map<RowMaterial, std::size_t> places;
  std::vector<std::vector<ExactSum>> sums;
  for (const Finding* finding : findings) {
    const Table* table = find_table(*finding, kMaterialsTable);
    // What rests on a claim that may not be used has lost its values; its table is for readers alone.
    if (table == nullptr || !has_value(*finding, kRowMaterials)) continue;
    const std::vector<RowMaterial> materials = row_materials_of(*finding);
    if (materials.size() != table->rows.size()) {
      throw std::runtime_error("finding '" + finding->check + "' of panel '" + finding->panel +
                               "' does not name the material of each row");
    }
    for (std::size_t i = 0; i < materials.size(); ++i) {
      const std::vector<Value>& row = table->rows[i];
      const auto [place, added] = places.try_emplace(materials[i], sums.size());
      if (added) {
        result.materials.push_back(materials[i]);
        sums.emplace_back(row.size() - 1);
      }
      for (std::size_t column = 1; column < row.size(); ++column) {
        sums[place->second].at(column - 1).add(std::get<double>(row[column]));
      }
    }
  }
  for (const std::vector<ExactSum>& row : sums) {
    std::vector<double>& cells = result.cells.emplace_back();
    for (const ExactSum& sum : row) cells.push_back(sum.total());
  }
  return result;
}

std::vector<const Finding*> findings_of(const std::vector<PanelFindings>& panels, const CheckDeclaration& check) {
  std::vector<const Finding*> found;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      if (finding.check == check.id) found.push_back(&finding);
    }
  }
  return found;
}

std::vector<Column> share_columns() {
  return {{"material", ""},
          {"A1–A3 less biogenic", "kg CO2e"},
          {"A1–A3 biogenic", "kg CO2e"},
          {"A4–A5", "kg CO2e"},
          {"B1–B5", "kg CO2e"},
          {"C1–C4", "kg CO2e"},
          {"A–C", "kg CO2e"},
          {"D", "kg CO2e"}};
}

MaterialRows shares_of(const PanelAccount& account) {
  MaterialRows rows;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back(shares_in(account.materials[row]));
  }
  MaterialAccount site;
  site.at(Module::a5) = account.site_assembly;
  rows.materials.emplace_back();
  rows.cells.push_back(shares_in(site));
  return rows;
}

}  // namespace panel_dossier::carbon
