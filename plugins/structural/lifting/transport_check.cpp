#include <algorithm>
#include <array>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/take_off.h"
#include "plugins/structural/lifting/lifting_checks.h"

namespace panel_dossier::structural {

namespace {

struct Share {
  const char* name;
  double value;
  double limit;
  const char* unit;

  double ratio() const { return value / limit; }
};

}  // namespace

const CheckDeclaration kTransportSizeCheck{
    .id = "structural.transport_size",
    .title = "Share of the vehicle's size and payload",
    .project_title = {},
    .sentence =
        "Of length on the bed, height above the deck and mass, standing on its foot or, where that is too high, on "
        "its left edge, the largest share of what vehicle and route allow that the panel takes is at most 1.",
    .clause = "Limits of the vehicle and of the route from the project settings (common practice)",
    .kind = CheckKind::limit,
    .inputs = {setting("structural.transport.bed_length_m"), setting("structural.transport.deck_height_m"),
               setting("structural.transport.overall_height_m"), setting("structural.transport.payload_kg"),
               optional_setting("quantities.transport.rack_base_m"),
               optional_property("Pset_MaterialCommon.MassDensity"), optional_property("Panel_Filling.FactoryFitted"),
               optional_property("Panel_Filling.Mass")},
    .limits = {"Axle loads, lashing and permits for abnormal loads are the haulier's.",
               "One panel at a time: the vehicle takes several, see the deliveries."}};

Finding transport_size(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder builder(kTransportSizeCheck, panel.global_id);
  const auto width = builder.positive("width of the panel", "b", "m", panel.width_m, "the panel has no width");
  const auto height = builder.positive("height of the panel", "h", "m", panel.height_m, "the panel has no height");
  const auto limit = [&](const char* name, const char* symbol, const char* key, const char* unit) {
    const std::string full = std::string("structural.transport.") + key;
    return builder.positive(name, symbol, unit, settings.number(full), "setting '" + full + "' is missing");
  };
  const auto bed = limit("length of the load bed", "l_b", "bed_length_m", "m");
  const auto deck = limit("height of the deck above the road", "h_d", "deck_height_m", "m");
  const auto clearance = limit("height that the route allows", "h_a", "overall_height_m", "m");
  const auto payload = limit("payload of the vehicle", "m_p", "payload_kg", "kg");
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) builder.missing(what);
  const auto mass = measured.mass_kg();
  if (mass) builder.number("mass, see quantities.mass", "m", "kg", Sourced<double>{*mass, panel.origin}, {});
  if (clearance && deck && *clearance <= *deck) {
    builder.missing("setting 'structural.transport.overall_height_m' leaves no height above the deck");
  }
  const auto rack = settings.number("quantities.transport.rack_base_m");
  if (rack) builder.number("height of the rack's base above the deck", "h_r", "m", rack, {});
  if (rack && rack->value < 0.0) builder.missing("setting 'quantities.transport.rack_base_m' is negative");
  if (builder.incomplete() || !mass) return builder.not_assessed();
  const double rack_m = rack ? rack->value : 0.0;
  // As in quantities.deliveries: a panel on its foot need not be turned on site.
  const bool on_foot = *width >= *height || *height + rack_m <= *clearance - *deck;
  const double upright = rack_m + (on_foot ? *height : *width);
  const std::array<Share, 3> shares{{{"length on the bed", on_foot ? *width : *height, *bed, "m"},
                                     {"height above the deck", upright, *clearance - *deck, "m"},
                                     {"mass", *mass, *payload, "kg"}}};
  Table table{"On the vehicle", {{"what", ""}, {"panel", ""}, {"limit", ""}, {"unit", ""}, {"share", ""}}, {}};
  for (const Share& share : shares) {
    table.rows.push_back({std::string(share.name), share.value, share.limit, std::string(share.unit), share.ratio()});
  }
  const auto worst = std::max_element(shares.begin(), shares.end(),
                                      [](const Share& a, const Share& b) { return a.ratio() < b.ratio(); });
  builder.table(std::move(table))
      .step_text("the panel stands on", on_foot ? "its foot" : "its left edge, for its height does not fit the route")
      .step("height of the load above the road", "z", *deck + upright, "m",
            std::string("z = h_d") + (rack ? " + h_r" : "") + (on_foot ? " + h" : " + b"))
      .step_text("governs", worst->name)
      .note(
          "Axle loads, lashing, and permits for abnormal loads are the haulier's; the vehicle takes several panels "
          "(see "
          "the deliveries).");
  return builder.judge(worst->ratio(), "", Relation::at_most, 1.0,
                       std::string("the panel exceeds the vehicle's limit: ") + worst->name +
                           "; choose another vehicle, a permit or a smaller panel");
}

}  // namespace panel_dossier::structural
