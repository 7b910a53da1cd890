#include "plugins/quantities/sheets/sheet_pieces.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

#include "core/api/support/exact_sum.h"
#include "plugins/quantities/cutting/cutting_list.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/programme/order.h"

namespace panel_dossier::quantities {

namespace {

bool is_flat(PartKind kind) {
  return kind == PartKind::sheet || kind == PartKind::insulation || kind == PartKind::cladding;
}

bool agree(Micrometres a, Micrometres b) {
  return std::abs(a - b) <= kSizeAgreement;
}

double net_area_m2(const CutPart& cut, const Part& part) {
  const double blank_m2 = metres(cut.width) * metres(cut.length);
  if (cut.rectangular || !part.volume_m3) return rounded_to_millionth(blank_m2);
  return rounded_to_millionth(std::min(blank_m2, part.volume_m3->value / metres(cut.thickness)));
}

std::optional<FlatSize> read_size(FindingBuilder& finding, const Settings& settings, const std::string& entry,
                                  const std::string& material) {
  const auto side = [&](const std::string& key, const char* symbol) {
    return finding.positive(
        key == "width" ? "sheet across the grain, " + material : "sheet along the grain, " + material, symbol, "m",
        settings.number(entry + key), "setting '" + entry + key + "' is missing: a length in m");
  };
  const auto width_m = side("width", "B");
  const auto length_m = side("length", "L");
  if (!width_m || !length_m) return std::nullopt;
  return FlatSize{micrometres(*width_m), micrometres(*length_m)};
}

}  // namespace

FlatSize upright_size(const CutPart& cut, const Part& part) {
  const FlatSize as_cut{cut.width, cut.length};
  if (!part.bounds) return as_cut;
  const Vec3 size = part.bounds->size();
  const bool lies = agree(micrometres(size.x), cut.length) && agree(micrometres(size.z), cut.width);
  return lies && cut.length != cut.width ? FlatSize{cut.length, cut.width} : as_cut;
}

Micrometres read_oversize(FindingBuilder& finding, const Settings& settings) {
  const std::string key = "quantities.insulation_oversize_m";
  if (settings.all().count(key) == 0) {
    finding.note("Insulation is cut to the size of its space: setting '" + key + "' is not given.");
    return 0;
  }
  const auto oversize_m = finding.number("insulation larger than its space, both ways", "a", "m", settings.number(key),
                                         "setting '" + key + "' is not a number: a length in m");
  if (oversize_m && *oversize_m < 0.0) finding.missing("setting '" + key + "' must not be negative");
  return oversize_m ? micrometres(*oversize_m) : 0;
}

FlatSize cut_size(const FlatSize& space, PartKind kind, Micrometres oversize, const SheetRules& rules) {
  if (kind != PartKind::insulation || oversize == 0) return space;
  const FlatSize larger{space.width + oversize, space.length + oversize};
  const auto held = [&](const FlatSize& size) {
    return std::any_of(rules.sizes.begin(), rules.sizes.end(),
                       [&](const FlatSize& sheet) { return fits(size, sheet, rules.may_turn); });
  };
  if (held(larger)) return larger;
  for (const FlatSize& sheet : rules.sizes) {
    const FlatSize trimmed{std::min(larger.width, std::max(sheet.width, space.width)),
                           std::min(larger.length, std::max(sheet.length, space.length))};
    if (fits(trimmed, sheet, rules.may_turn)) return trimmed;
  }
  return larger;
}

FlatGroups flat_pieces(FindingBuilder& finding, const Project& project, const Settings& settings) {
  FlatGroups groups;
  for (const Panel& panel : project.panels) {
    const CutParts cut = cut_parts(panel);
    if (!cut.missing.empty()) finding.missing("panel '" + panel.mark + "': " + cut.missing.front());
    const std::string batch = batch_of(panel, settings);
    const std::vector<std::string> marks = part_marks(panel, project, settings, cut.parts);
    for (const CutPart& piece : cut.parts) {
      const Part& part = panel.parts[piece.part];
      if (!is_flat(part.kind)) continue;
      groups[{material_key(project, part.material), piece.thickness}].push_back(
          {upright_size(piece, part), net_area_m2(piece, part), batch, part.kind,
           "part '" + part.name + "' of panel '" + panel.mark + "'", panel.mark, marks[piece.part]});
    }
  }
  return groups;
}

std::optional<SheetRules> sheet_rules(FindingBuilder& finding, const Project& project, const Settings& settings,
                                      const MaterialKey& material, Micrometres kerf) {
  SheetRules rules;
  rules.kerf = kerf;
  for (std::size_t i = 0;; ++i) {
    const std::string entry = "quantities.sheet_sizes_m." + std::to_string(i) + ".";
    const auto named = settings.text(entry + "material");
    if (!named) break;
    if (named->value != material.name) continue;
    if (const std::size_t bearers = materials_named(project, material.name); bearers > 1) {
      finding.missing("setting '" + entry + "material' is '" + material.name + "', the name of " +
                      std::to_string(bearers) + " materials: give each a name of its own in the export");
      return std::nullopt;
    }
    const auto size = read_size(finding, settings, entry, material.name);
    if (size) rules.sizes.push_back(*size);
    const auto may_turn = settings.logical(entry + "may_turn");
    if (may_turn && finding.logical("pieces may be turned, " + material.name, may_turn, "")) {
      rules.may_turn = rules.may_turn || may_turn->value;
    }
  }
  return rules;
}

}  // namespace panel_dossier::quantities
