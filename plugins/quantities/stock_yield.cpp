#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "core/api/finding_builder.h"
#include "core/api/fixed_text.h"
#include "plugins/quantities/bar_packing.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cut_parts.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kPercent = 100.0;

/// Material, width and thickness: pieces of one section are cut from the same bars.
using Section = std::tuple<std::string, Micrometres, Micrometres>;
using Lengths = std::vector<Micrometres>;

struct Saw {
  Lengths stock;
  Micrometres kerf = 0;
};

struct Totals {
  std::size_t pieces = 0;
  std::size_t bars = 0;
  std::size_t fewest_bars = 0;
  Micrometres used = 0;
  Micrometres bought = 0;
};

Saw read_saw(FindingBuilder& finding, const Settings& settings) {
  Saw saw;
  for (std::size_t i = 0;; ++i) {
    const std::string key = "quantities.stock_lengths_m." + std::to_string(i);
    if (settings.all().count(key) == 0) break;
    const auto length_m = finding.positive("length of stock", "L", "m", settings.number(key),
                                           "setting '" + key + "' is not a number: a length in m");
    if (length_m) saw.stock.push_back(micrometres(*length_m));
  }
  if (saw.stock.empty() && !finding.incomplete()) {
    finding.missing("setting 'quantities.stock_lengths_m' is missing: a list of lengths in m");
  }
  const auto kerf_m = finding.number("width of the saw cut", "k", "m", settings.number("quantities.saw_kerf_m"),
                                     "setting 'quantities.saw_kerf_m' is missing");
  if (kerf_m && *kerf_m < 0.0) finding.missing("setting 'quantities.saw_kerf_m' must not be negative");
  if (kerf_m) saw.kerf = micrometres(*kerf_m);
  return saw;
}

/// Framing of all panels by section; notes panels whose pieces are not known.
std::map<Section, Lengths> framing_by_section(FindingBuilder& finding, const Project& project) {
  std::map<Section, Lengths> sections;
  for (const Panel& panel : project.panels) {
    const CutParts cut = cut_parts(panel);
    if (!cut.missing.empty()) finding.missing("panel '" + panel.mark + "': " + cut.missing.front());
    for (const CutPart& piece : cut.parts) {
      const Part& part = panel.parts[piece.part];
      if (!is_framing(part.kind)) continue;
      const Material* material = material_at(project, part.material);
      const std::string name = material == nullptr ? "not stated" : material->name;
      sections[{name, piece.width, piece.thickness}].push_back(piece.length);
    }
  }
  return sections;
}

void note_pieces_longer_than_stock(FindingBuilder& finding, const Project& project, Micrometres longest) {
  for (const Panel& panel : project.panels) {
    for (const CutPart& piece : cut_parts(panel).parts) {
      const Part& part = panel.parts[piece.part];
      if (!is_framing(part.kind) || piece.length <= longest) continue;
      finding.missing("part '" + part.name + "' of panel '" + panel.mark +
                      "' is longer than any stock length; add a "
                      "longer one to 'quantities.stock_lengths_m' or joint the member");
    }
  }
}

/// For example `2 × 4.800 m, 1 × 6.000 m`, short bars first.
std::string bars_in_words(const std::vector<Bar>& bars) {
  std::map<Micrometres, int> counts;
  for (const Bar& bar : bars) ++counts[bar.stock];
  std::string words;
  for (const auto& [length, count] : counts) {
    words += (words.empty() ? "" : ", ") + std::to_string(count) + " × " + fixed_text(metres(length), 3) + " m";
  }
  return words;
}

std::vector<Value> section_row(const Section& section, const Lengths& lengths, const Saw& saw, Totals& totals) {
  const std::vector<Bar> bars = pack_bars(lengths, saw.stock, saw.kerf);
  const std::size_t bound = fewest_bars(lengths, *std::max_element(saw.stock.begin(), saw.stock.end()), saw.kerf);
  Micrometres used = 0;
  Micrometres bought = 0;
  for (const Micrometres length : lengths) used += length;
  for (const Bar& bar : bars) bought += bar.stock;
  totals.pieces += lengths.size();
  totals.bars += bars.size();
  totals.fewest_bars += bound;
  totals.used += used;
  totals.bought += bought;
  const auto& [material, width, thickness] = section;
  return {material,
          millimetres(thickness),
          millimetres(width),
          static_cast<double>(lengths.size()),
          metres(used),
          bars_in_words(bars),
          static_cast<double>(bars.size()),
          static_cast<double>(bound),
          kPercent * metres(used) / metres(bought)};
}

Table yield_table() {
  return {"Stock bars by section",
          {{"material", ""},
           {"thickness", "mm"},
           {"width", "mm"},
           {"pieces", ""},
           {"framing length", "m"},
           {"bars to buy", ""},
           {"bars", ""},
           {"fewest possible", ""},
           {"yield", "%"}},
          {}};
}

}  // namespace

Finding stock_yield(const Project& project, const Settings& settings) {
  FindingBuilder finding("quantities.stock_yield", "Yield of framing from stock bars", "",
                         "First-fit decreasing; lower bound L2 of Martello and Toth, 1990, chapter 8 (from memory)");
  finding.decimals(1);
  const Saw saw = read_saw(finding, settings);
  const std::map<Section, Lengths> sections = framing_by_section(finding, project);
  if (!saw.stock.empty()) {
    note_pieces_longer_than_stock(finding, project, *std::max_element(saw.stock.begin(), saw.stock.end()));
  }
  if (sections.empty()) finding.missing("the export gives no framing members");
  if (finding.incomplete()) return finding.not_assessed();

  Totals totals;
  Table table = yield_table();
  for (const auto& [section, lengths] : sections) table.rows.push_back(section_row(section, lengths, saw, totals));
  finding.step("framing pieces", "n", static_cast<double>(totals.pieces), "");
  finding.step("framing length", "Σl", metres(totals.used), "m");
  finding.step("stock length bought", "ΣL", metres(totals.bought), "m");
  finding.step("bars by the cutting plan", "N", static_cast<double>(totals.bars), "");
  finding.step("bars that no plan can save, all of the longest stock", "N_min", static_cast<double>(totals.fewest_bars),
               "");
  finding.table(std::move(table));
  finding.note(
      "Cut across all panels of the project as one batch, without allowance for defects or for trimming the "
      "ends of bars.");
  return finding.inform(kPercent * metres(totals.used) / metres(totals.bought), "%");
}

}  // namespace panel_dossier::quantities
