// What those who use, maintain, alter or take down the building need: maintenance, safety file, fire information.

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "core/api/finding/roles.h"
#include "core/api/support/units.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/check_summary.h"
#include "core/dossier/parts/panel_facts.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

constexpr const char* kCommonPractice =
    "General guidance, common practice; the instructions of the manufacturers of the products in the panels and the "
    "local codes come first.";

void write_inspection(Flow& flow) {
  flow.heading("Inspection intervals");
  TableSpec table;
  table.columns = {{"what"}, {"look for"}, {"interval"}};
  table.rows = {
      {"outer face and joints", "loose or cracked cladding, open joints, failed sealant, blocked ventilation gaps",
       "every year, and after a storm or an impact"},
      {"windows, doors and their flashings", "drainage paths, seals, signs of water below sills", "every year"},
      {"foot of the panels", "splash water, ground or planting that has risen, damp timber or lining", "every year"},
      {"inner lining and service penetrations", "cracks, stains, holes that were not made good",
       "every two years, and after each work on services"},
      {"fire seals and cavity barriers where they can be reached", "gaps, displaced or damaged material",
       "every year, by a person competent in fire stopping"},
      {"fixings of the panels to the structure", "corrosion, movement, missing screws or bolts",
       "every five years where they can be reached, and when the structure is altered"}};
  set_table(flow, std::move(table));
}

void write_use(Flow& flow) {
  flow.heading("Cleaning");
  flow.item("Outer face: clear water at low pressure, soft brush, neutral cleaner. No pressure washer towards joints.");
  flow.item("Inner lining: as the finish allows; keep standing water away from the foot of the panel.");
  flow.heading("Repair");
  flow.item(
      "Find and stop the cause of any damp before the face is closed again. Timber should be back below 20 % "
      "moisture content.");
  flow.item(
      "Replace boards, membranes and insulation like for like, from the layers printed on the page of the panel; "
      "another product may change the fire, moisture and sound performance.");
  flow.item(
      "Repair the air and vapour control layer with compatible tape over its whole extent before the lining is "
      "closed.");
  flow.heading("Penetrations and fixing into the panel");
  flow.item(
      "Fix light loads into the lining or its battens; heavy loads into the studs, whose places are on the "
      "page of the panel.");
  flow.item("Never cut or notch a stud, post, rail or lintel without the structural engineer's written agreement.");
  flow.item(
      "Seal each penetration airtight at the inner side and weathertight at the outer side. Where the panel has a "
      "fire requirement, use a tested fire stopping system within its field of application.");
  flow.item("Look for cables and pipes before drilling.");
}

void write_alteration(Flow& flow) {
  flow.heading("Alteration");
  flow.item(
      "New or larger openings change the structure, the fire resistance and the envelope of the panel: they need "
      "a design by the responsible engineers and a new issue of this dossier.");
  flow.item(
      "A change of the room's use, heating or humidity changes the moisture risk of the build-up; have it checked.");
  flow.heading("End of life and dismantling");
  flow.item(
      "Panels can be taken down in the reverse order of erection; the mass of each panel is on its page and in part 7. "
      "Have the lift "
      "planned by a competent person: fixings and timber have aged.");
  flow.item(
      "Do not reuse erection loops unless their certificate allows it: dismantling needs newly designed lifting "
      "points.");
  flow.item(
      "Support each panel before its fixings are loosened. Take out windows and doors first unless the lift plan "
      "says otherwise.");
  flow.item(
      "Layers can be parted by material: boards, insulation, membranes, timber. Reuse whole panels or framing "
      "first, then recycle; the page of the panel lists the materials.");
}

// The warranties of the export, each with the panels it holds for.
void write_warranty(Book& book) {
  std::map<std::array<std::string, 5>, std::vector<std::string>> panels_by_warranty;
  for (const Panel& panel : book.project().panels) {
    const auto warranty = warranty_of(panel);
    const bool is_given = std::any_of(warranty.begin(), warranty.end(), [](const auto& text) { return !text.empty(); });
    if (is_given) panels_by_warranty[warranty].push_back(panel.mark);
  }
  book.flow.heading("Warranty");
  if (panels_by_warranty.empty()) {
    book.flow.paragraph("The export gives no warranty (Pset_Warranty.WarrantyPeriod, WarrantyStartDate).");
    return;
  }
  constexpr std::array kHeads{"period", "from", "to", "contact", "exclusions"};
  std::vector<std::size_t> given;  // columns that say something
  for (std::size_t i = 0; i < kHeads.size(); ++i) {
    const bool is_given = std::any_of(panels_by_warranty.begin(), panels_by_warranty.end(),
                                      [&](const auto& entry) { return !entry.first[i].empty(); });
    if (is_given) given.push_back(i);
  }
  TableSpec table;
  table.columns.reserve(given.size() + 2);
  for (const std::size_t i : given) table.columns.emplace_back(ColumnSpec{kHeads[i]});
  table.columns.emplace_back(ColumnSpec{"panels"});
  table.columns.emplace_back(ColumnSpec{"marks"});
  constexpr std::size_t kMarksOfWarranty = 60;
  for (const auto& [warranty, marks] : panels_by_warranty) {
    std::string count = std::to_string(marks.size());
    for (const std::string& group : in_groups(marks, kMarksOfWarranty)) {
      std::vector<Cell> row;
      row.reserve(given.size() + 2);
      for (const std::size_t i : given) row.emplace_back(count.empty() ? std::string() : warranty[i]);
      row.emplace_back(count);
      row.emplace_back(group);
      table.rows.push_back(std::move(row));
      count.clear();
    }
  }
  set_table(book.flow, std::move(table));
}

}  // namespace

void write_maintenance(Book& book) {
  book.begin_part(DossierPart::maintenance);
  book.flow.paragraph(kCommonPractice, type::kNote);
  write_inspection(book.flow);
  write_use(book.flow);
  write_alteration(book.flow);
  write_warranty(book);
}

namespace {

void write_risks(Flow& flow) {
  flow.heading("Residual risks");
  flow.paragraph("Common practice; the project's risk assessment and the local codes come first.", type::kNote);
  TableSpec table;
  table.columns = {{"risk"}, {"when"}, {"what to do"}};
  table.rows = {
      {"fall of a panel", "lifting, placing, dismantling",
       "Lift only as planned by a competent person; keep people out from under and beside the load; keep the crane's "
       "hook on until the temporary fixings of the plan are in."},
      {"wind on a hanging or propped panel", "lifting, before the panel is finally fixed",
       "Keep to the wind limits of the crane and of the lift plan; design props for wind on the full face."},
      {"loss of stability", "alteration, dismantling",
       "Prop before cutting or loosening; ask the structural engineer."},
      {"fall from height", "work at openings and edges", "Guard openings until windows and doors are in."},
      {"hidden services", "drilling and cutting", "Trace and isolate before work."},
      {"fire during hot work", "repair, roofing, dismantling",
       "Avoid hot work at the panels; else permit, watch and extinguisher: cavities can smoulder unseen."},
      {"hidden damp and decay", "long-term use", "Inspect as in part 6; assume reduced strength of decayed timber."}};
  set_table(flow, std::move(table));
}

double mass_of(const BuildSummary& build, const PanelSummary& summary) {
  const RecordedFinding* finding = finding_of_role(build, summary.findings, role::kMass);
  const double* mass = finding != nullptr ? std::get_if<double>(&finding->value) : nullptr;
  return mass != nullptr ? *mass : -1.0;
}

// A coordinate of the centre of gravity; a dash where the panel has none.
Cell coordinate_cell(const RecordedFinding* centre, std::string_view id) {
  if (centre == nullptr) return "–";
  const std::vector<NamedValue>& values = centre->derivation->values;
  const auto found = std::find_if(values.begin(), values.end(),
                                  [id](const NamedValue& value) { return value.id == id && value.unit == "m"; });
  const auto* value_m = found == values.end() ? nullptr : std::get_if<double>(&found->value);
  return value_m == nullptr ? Cell("–") : Cell(format_fixed(*value_m, 3));
}

}  // namespace

void write_weights(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Weights for lifting");
  flow.paragraph(
      "Calculated masses from the model, heaviest first, without slings, props and water taken up. Weigh or add "
      "a margin as the lift plan demands. A dash: the figure could not be calculated; the page of the panel tells "
      "why.");
  flow.paragraph(
      "Centre of gravity in metres, the panel standing and seen from inside: x from its left edge, y from its inner "
      "face, z from its foot.");
  const BuildSummary& build = book.results().build;
  std::vector<const PanelSummary*> panels;
  for (const PanelSummary& panel : book.results().panels) panels.push_back(&panel);
  std::stable_sort(panels.begin(), panels.end(), [&build](const PanelSummary* a, const PanelSummary* b) {
    return mass_of(build, *a) > mass_of(build, *b);
  });
  TableSpec table;
  table.columns = {{"panel"}, {"type"}, {"mass", true}, {"x m", true}, {"y m", true}, {"z m", true}};
  for (const PanelSummary* panel : panels) {
    const RecordedFinding* mass = finding_of_role(build, panel->findings, role::kMass);
    const RecordedFinding* centre = finding_of_role(build, panel->findings, role::kCentreOfGravity);
    table.rows.push_back({link_cell(panel->mark, panel_anchor(panel->global_id)), panel->type,
                          mass != nullptr ? value_cell(*mass) : Cell("–"), coordinate_cell(centre, "from_left_edge"),
                          coordinate_cell(centre, "from_inner_face"), coordinate_cell(centre, "from_foot")});
  }
  if (table.rows.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  set_table(flow, std::move(table));
}

namespace {

bool has_lifting_finding(const ResultsDocument& results) {
  return std::any_of(results.panels.begin(), results.panels.end(), [&results](const PanelSummary& panel) {
    return finding_of_role(results.build, panel.findings, role::kLifting) != nullptr;
  });
}

void write_lifting(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Lifting");
  flow.item("Use only the lifting points that the panel was designed for, and only as their certificate allows.");
  flow.item(has_lifting_finding(book.results())
                ? "The lifting findings on the page of each panel lead to the assumptions made."
                : "This dossier holds no check of lifting points: the lift plan has to bring its own.");
  flow.item("Keep the angle of the slings within the lift plan; use a spreader where the plan says so.");
  flow.item("Check lifting points for damage before each lift.");
  flow.item(
      "Do not reuse erection loops unless their certificate allows it: dismantling needs newly designed lifting "
      "points.");
}

void write_substances(Flow& flow) {
  flow.heading("Dust and treatments");
  flow.item(
      "Sawing and sanding timber, boards and mineral products sets free dust that harms the lungs: extract at the "
      "tool, and wear a mask of at least class FFP2 (FFP3 for hardwood and silica).");
  flow.item("Mineral wool irritates skin and eyes: gloves, long sleeves, goggles for work overhead.");
  flow.item(
      "Timber may carry preservative or fire-retardant treatment. Treated waste is not to be burnt in the open and "
      "is kept apart for disposal; the product documents in part 9 say what was used.");
  flow.item("Adhesives and sealants: keep to the safety data sheet of the product.");
}

void write_cautions(Book& book) {
  bool any = false;
  for (const PluginSummary& plugin : book.results().build.plugins) {
    if (plugin.caution.empty()) continue;
    if (!any) book.flow.heading("Cautions of the disciplines");
    any = true;
    book.flow.item(plugin.title + ": " + plugin.caution);
  }
}

}  // namespace

void write_safety_file(Book& book) {
  book.begin_part(DossierPart::safety_file);
  write_risks(book.flow);
  write_weights(book);
  write_lifting(book);
  write_substances(book.flow);
  write_cautions(book);
}

namespace {

/// The id of the discipline whose findings this part sums up; empty when no plugin claims the role.
std::string discipline_in(const ResultsDocument& results) {
  const CheckDeclaration* check = check_of_role(results.build, role::kFireSafety);
  return check == nullptr ? std::string() : std::string(discipline_of(check->id));
}

void write_fire_by_type(Flow& flow, const CheckSummaries& summaries) {
  flow.heading("By panel type");
  TableSpec table;
  table.columns = {{"type"}, {"check"}, {"value (panels)"}, {"required"}, {"basis"}, {"verdicts"}};
  for (const auto& [key, summary] : summaries) {
    Cell verdicts;
    verdicts.counts = listed(summary.verdicts);
    table.rows.push_back({type_in_words(key.first), summary.title, values_in_words(summary), some_of(summary.limits),
                          some_of(summary.bases), verdicts});
  }
  set_table(flow, std::move(table));
}

void write_project(Book& book, const std::string& discipline) {
  TableSpec table;
  table.columns = {{"project finding"}, {"value"}, {"limit"}, {"verdict"}, {"basis"}, {"reason"}};
  for (const RecordedFinding& finding : book.results().project_findings) {
    if (discipline_of(finding.check) != discipline) continue;
    table.rows.push_back({link_cell(finding.title, discipline_anchor(discipline)), value_cell(finding),
                          limit_cell(finding), verdict_cell(finding.verdict), std::string(to_string(finding.basis)),
                          finding.reason});
  }
  if (table.rows.empty()) return;
  book.flow.heading("The project as a whole");
  set_table(book.flow, std::move(table));
}

void write_upkeep(Flow& flow) {
  flow.heading("Keeping the fire performance");
  flow.paragraph("Common practice; the fire strategy of the building and the local codes come first.", type::kNote);
  flow.item(
      "The inner lining is part of the fire protection: keep it whole, and make good every hole with the tested "
      "system.");
  flow.item("Cavity barriers and fire seals at the panels' edges must stay continuous; replace them like for like.");
  flow.item("Outer faces: keep to the reaction-to-fire classes stated when cladding or insulation is replaced.");
  flow.item(
      "Windows and doors with a fire class are replaced by ones of at least the same class, with their test "
      "evidence.");
}

}  // namespace

void write_fire_information(Book& book) {
  const std::string discipline = discipline_in(book.results());
  const PluginSummary* plugin = book.plugin(discipline);
  book.begin_part(DossierPart::fire_information, plugin != nullptr ? plugin->caution : std::string());
  Flow& flow = book.flow;
  flow.paragraph(
      "For the responsible person and the fire service: what the panels contribute to the fire safety of the "
      "building. A classification by calculation never outranks a test report.");
  const CheckSummaries summaries = summarise(book.results(), [&discipline](const RecordedFinding& finding) {
    return discipline_of(finding.check) == discipline;
  });
  if (summaries.empty()) {
    flow.paragraph(
        "No discipline returned findings on fire: nothing is stated here about the panels' fire performance.");
  } else {
    write_fire_by_type(flow, summaries);
  }
  write_project(book, discipline);
  write_upkeep(flow);
}

}  // namespace panel_dossier
