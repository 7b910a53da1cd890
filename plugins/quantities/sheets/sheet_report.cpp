#include "plugins/quantities/sheets/sheet_report.h"

#include <map>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

using Group = std::pair<std::string, Micrometres>;

/// For example `12 × 1200 × 2400 mm`.
std::string sheets_in_words(const std::map<std::pair<Micrometres, Micrometres>, int>& counts) {
  std::string words;
  for (const auto& [size, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + size_text({size.first, size.second}) + " mm";
  }
  return words;
}

/// Sums over several plans.
struct Sum {
  std::size_t pieces = 0;
  int sheets = 0;
  ExactSum net_m2;
  ExactSum bought_m2;
  ExactSum bound_m2;
  std::map<std::pair<Micrometres, Micrometres>, int> sizes;

  void add(const SheetPlan& plan) {
    pieces += plan.pieces;
    net_m2.add(plan.net_m2);
    bought_m2.add(plan.bought_m2);
    bound_m2.add(plan.bound_m2);
    for (const SheetLayout& layout : plan.layouts) {
      sheets += layout.times;
      sizes[{layout.cut.sheet.width, layout.cut.sheet.length}] += layout.times;
    }
  }
};

}  // namespace

Table sheet_table(const std::vector<SheetPlan>& plans) {
  std::map<Group, Sum> groups;
  for (const SheetPlan& plan : plans) groups[{plan.material, plan.thickness}].add(plan);
  Table table{"Sheets and slabs by material",
              {{"material", ""},
               {"thickness", "mm"},
               {"pieces", ""},
               {"net area", "m²"},
               {"sheets to buy", ""},
               {"bought", "m²"},
               {"no plan below", "m²"},
               {"yield", "%"}},
              {}};
  for (const auto& [group, sum] : groups) {
    table.rows.push_back({group.first, millimetres(group.second), static_cast<double>(sum.pieces), sum.net_m2.total(),
                          sheets_in_words(sum.sizes), sum.bought_m2.total(), sum.bound_m2.total(),
                          units::kPercentPerWhole * sum.net_m2.total() / sum.bought_m2.total()});
  }
  return table;
}

Table batch_table(const std::vector<SheetPlan>& plans) {
  Table table{"By batch",
              {{"batch", ""}, {"material", ""}, {"thickness", "mm"}, {"pieces", ""}, {"sheets", ""}, {"yield", "%"}},
              {}};
  for (const SheetPlan& plan : plans) {
    Sum sum;
    sum.add(plan);
    table.rows.push_back({plan.batch.empty() ? "not known" : plan.batch, plan.material, millimetres(plan.thickness),
                          static_cast<double>(plan.pieces), static_cast<double>(sum.sheets),
                          units::kPercentPerWhole * plan.net_m2 / plan.bought_m2});
  }
  return table;
}

}  // namespace panel_dossier::quantities
