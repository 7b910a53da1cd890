#include <map>

#include "core/dossier/layout/number_format.h"
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
      "Replace boards, membranes and insulation like for like, from the layers printed on the panel's sheet; "
      "another product may change the fire, moisture and sound performance.");
  flow.item(
      "Repair the air and vapour control layer with compatible tape over its whole extent before the lining is "
      "closed.");
  flow.heading("Penetrations and fixing into the panel");
  flow.item(
      "Fix light loads into the lining or its battens; heavy loads into the studs, whose places are on the panel's "
      "elevation drawing.");
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
      "Panels can be taken down in the reverse order of erection; the mass of each panel is in part 7. Have the lift "
      "planned by a competent person: fixings and timber have aged.");
  flow.item(
      "Do not reuse erection loops unless their certificate allows it: dismantling needs newly designed lifting "
      "points.");
  flow.item(
      "Support each panel before its fixings are loosened. Take out windows and doors first unless the lift plan "
      "says otherwise.");
  flow.item(
      "Layers can be parted by material: boards, insulation, membranes, timber. Reuse whole panels or framing "
      "first, then recycle; the panel's sheet lists the materials.");
}

// The warranty periods of the export, each with the panels it holds for.
void write_warranty(Book& book) {
  constexpr double kSecondsPerYear = 31557600.0;  // 365.25 days
  std::map<std::string, std::vector<std::string>> panels_by_period;
  for (const Panel& panel : book.project().panels) {
    const auto period = panel.properties.number("Pset_Warranty", "WarrantyPeriod");
    if (period) panels_by_period[format_significant(period->value / kSecondsPerYear) + " years"].push_back(panel.mark);
  }
  book.flow.heading("Warranty");
  if (panels_by_period.empty()) {
    book.flow.paragraph("The export gives no warranty period (Pset_Warranty.WarrantyPeriod).");
    return;
  }
  TableSpec table;
  table.columns = {{"period"}, {"panels"}, {"marks"}};
  for (const auto& [period, marks] : panels_by_period)
    table.rows.push_back({period, std::to_string(marks.size()), list_some(marks, 30)});
  set_table(book.flow, std::move(table));
}

}  // namespace

void write_maintenance(Book& book) {
  book.begin_part(DossierPart::maintenance, book.joined_cautions(), book.short_cautions());
  book.flow.paragraph(kCommonPractice, type::kNote);
  write_inspection(book.flow);
  write_use(book.flow);
  write_alteration(book.flow);
  write_warranty(book);
}

}  // namespace panel_dossier
