#include "plugins/carbon/account/account_tables.h"

#include <algorithm>
#include <map>
#include <string>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::array kConstruction{Module::a4, Module::a5};
constexpr std::array kUse{Module::b1, Module::b2, Module::b3, Module::b4, Module::b5};

Gwp known(const MaterialAccount& entry, Module module) {
  return entry.at(module).value_or(Gwp{});
}

template <std::size_t N>
double total_of(const MaterialAccount& entry, const std::array<Module, N>& modules) {
  Gwp sum;
  for (const Module module : modules) sum += known(entry, module);
  return sum.total();
}

std::vector<Value> material_row(const std::string& name, const MaterialAccount& entry) {
  return {name,
          known(entry, Module::a1_a3).fossil_and_luluc(),
          known(entry, Module::a1_a3).biogenic,
          total_of(entry, kConstruction),
          total_of(entry, kUse),
          total_of(entry, kEndOfLife),
          whole_life_of(entry),
          known(entry, Module::d).total()};
}

const std::string& name_in(const std::vector<Value>& row) {
  return std::get<std::string>(row.front());
}

std::size_t place_of(const std::string& module) {
  const auto found = std::find_if(kModules.begin(), kModules.end(),
                                  [&](Module candidate) { return name_of(candidate).printed == module; });
  return static_cast<std::size_t>(found - kModules.begin());
}

}  // namespace

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

double whole_life_of(const MaterialAccount& entry) {
  Gwp sum;
  for (const Module module : kModules) {
    if (module != Module::d) sum += known(entry, module);
  }
  return sum.total();
}

Table module_table(const PanelAccount& account) {
  Table table{std::string(kByModule),
              {{"module", ""},
               {"GWP-fossil", "kg CO2e"},
               {"GWP-biogenic", "kg CO2e"},
               {"GWP-luluc", "kg CO2e"},
               {"GWP-total", "kg CO2e"}},
              {}};
  for (const Module module : kModules) {
    const auto gwp = module_sum(account, module);
    if (!gwp) continue;
    table.rows.push_back({std::string(name_of(module).printed), gwp->fossil, gwp->biogenic, gwp->luluc, gwp->total()});
  }
  return table;
}

Table material_table(const PanelAccount& account) {
  Table table{std::string(kByMaterial),
              {{"material", ""},
               {"A1–A3 less biogenic", "kg CO2e"},
               {"A1–A3 biogenic", "kg CO2e"},
               {"A4–A5", "kg CO2e"},
               {"B1–B5", "kg CO2e"},
               {"C1–C4", "kg CO2e"},
               {"A–C", "kg CO2e"},
               {"D", "kg CO2e"}},
              {}};
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    table.rows.push_back(material_row(account.label(row), account.materials[row]));
  }
  MaterialAccount site;
  site.at(Module::a5) = account.site_assembly;
  table.rows.push_back(material_row("assembly on site", site));
  return table;
}

Table summed_tables(const std::vector<const Table*>& tables) {
  Table sum;
  std::map<std::string, std::size_t> places;
  std::vector<std::vector<ExactSum>> sums;
  for (const Table* table : tables) {
    if (sum.columns.empty()) {
      sum.title = table->title;
      sum.columns = table->columns;
    }
    for (const std::vector<Value>& row : table->rows) {
      const auto [place, added] = places.try_emplace(name_in(row), sums.size());
      if (added) {
        sums.emplace_back(row.size());
        sum.rows.push_back({row.front()});
      }
      for (std::size_t i = 1; i < row.size(); ++i) sums[place->second][i].add(std::get<double>(row[i]));
    }
  }
  for (std::size_t row = 0; row < sums.size(); ++row) {
    for (std::size_t i = 1; i < sums[row].size(); ++i) sum.rows[row].emplace_back(sums[row][i].total());
  }
  return sum;
}

void sort_by_module(Table& table) {
  std::stable_sort(table.rows.begin(), table.rows.end(),
                   [](const auto& a, const auto& b) { return place_of(name_in(a)) < place_of(name_in(b)); });
}

void sort_by_weight(Table& table) {
  std::stable_sort(table.rows.begin(), table.rows.end(), [](const auto& a, const auto& b) {
    return std::get<double>(a[kWholeLifeColumn]) > std::get<double>(b[kWholeLifeColumn]);
  });
}

std::vector<const Table*> tables_of(const std::vector<PanelFindings>& panels, std::string_view check,
                                    std::string_view title) {
  std::vector<const Table*> tables;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      const Table* table = finding.check == check ? table_of(finding, title) : nullptr;
      if (table != nullptr) tables.push_back(table);
    }
  }
  return tables;
}

const Table* table_of(const Finding& finding, std::string_view title) {
  for (const Table& table : finding.tables) {
    if (table.title == title) return &table;
  }
  return nullptr;
}

}  // namespace panel_dossier::carbon
