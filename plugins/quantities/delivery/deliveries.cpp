#include "plugins/quantities/delivery/deliveries.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/finding/panel_values.h"
#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/delivery/packing.h"
#include "plugins/quantities/delivery/report.h"
#include "plugins/quantities/programme/programme.h"
#include "plugins/quantities/programme/records.h"

namespace panel_dossier::quantities {

const CheckDeclaration kDeliveriesCheck{
    .id = "quantities.deliveries",
    .title = "Vehicle loads in the order of erection",
    .project_title = {},
    .sentence =
        "Every panel stands on one vehicle load in the order of erection, within the bed, the height of the route, "
        "the payload and the limits of kingpin and axle group; beside the number of loads stands the number that "
        "no packing can save.",
    .clause =
        "Next-fit in the order of erection, rows within a load also first-fit decreasing; bounds L1 and L2 of Martello "
        "and Toth, 1990, chapter 8 (from memory); "
        "axles by the law of the lever",
    .units = {"loads"},
    .kind = CheckKind::figure,
    .scope = CheckScope::project,
    .inputs = with_model(
        {optional_property("Panel_Identity.ErectionOrder"), optional_property("Panel_Identity.After"),
         // Masses and centres of gravity are those of the panels' own findings.
         optional_property("Pset_MaterialCommon.MassDensity"), optional_property("Panel_Filling.FactoryFitted"),
         optional_property("Panel_Filling.Mass"), optional_property("Panel_FastenerQuantities.GrossWeight"),
         setting("structural.transport.bed_length_m"), setting("structural.transport.deck_height_m"),
         setting("structural.transport.overall_height_m"), setting("structural.transport.payload_kg"),
         setting("quantities.transport.bed_width_m"), setting("quantities.transport.spacer_m"),
         setting("quantities.transport.rack_base_m"), setting("quantities.transport.rack_kg"),
         setting("quantities.transport.kingpin_m"), setting("quantities.transport.axle_group_m"),
         setting("quantities.transport.kingpin_limit_kg"), setting("quantities.transport.axle_group_limit_kg"),
         optional_setting("quantities.transport.side_balance_limit"),
         optional_setting("quantities.transport.lifted_out_upwards")}),
    .limits = {"Lashing, and permits for abnormal loads.", "Axle loads of the tractor, and the vehicle's own mass.",
               "Moving rows sideways for balance: a load out of balance is named, not packed anew.",
               "The height of the racks' own centre of gravity.", "A shorter packing out of the order of erection."},
    .role = std::string(role::kDeliveries),
    .for_workshop = true};

namespace {

/// More pictures than these say nothing new; the tables have every load.
constexpr std::size_t kLoadsDrawn = 8;
/// More of one kind make a reason unreadable.
constexpr std::size_t kRefusalsNamed = 5;

void add_steps(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  ExactSum mass;
  for (const Load& load : list.loads) mass.add(kilograms(load.mass));
  const LoadBounds bounds = load_bounds(list.items, vehicle);
  const auto loads = static_cast<double>(list.loads.size());
  finding.step("panels, each in one load", "n", static_cast<double>(list.items.size()), "")
      .step("mass of the panels of all loads", "ΣM", mass.total(), "kg")
      .step("loads that the mass alone needs, bound L1", "N_m", static_cast<double>(bounds.by_mass), "")
      .step("loads that the floor alone needs, bound L1", "N_f", static_cast<double>(bounds.by_floor), "")
      .step("loads that the rows alone need, bound L2 on lengths", "N_r", static_cast<double>(bounds.by_rows), "")
      .step("loads that no packing can save", "N_min", static_cast<double>(bounds.least()), "",
            "N_min = max(N_m; N_f; N_r)")
      .step("loads in the order of erection", "N", loads, "")
      .step("mean use of the payload", "u",
            units::kPercentPerWhole * (mass.total() / loads + kilograms(vehicle.racks)) / kilograms(vehicle.payload),
            "%", "u = (ΣM / N + m_r) / P");
}

void add_drawings(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  const std::size_t drawn = std::min(list.loads.size(), kLoadsDrawn);
  for (std::size_t i = 0; i < drawn; ++i) {
    finding.drawing(load_side_views(list, i, vehicle)).drawing(load_plan(list, i, vehicle));
  }
  for (Drawing& plan : storey_plans(list)) finding.drawing(std::move(plan));
}

/// The loads whose sides differ by more than the settings allow.
void note_balance(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  if (!vehicle.side_balance_limit) return;
  std::vector<std::string> uneven;
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    const double difference = balance_of(list.loads[i], list.items, vehicle).difference();
    if (difference > *vehicle.side_balance_limit) uneven.push_back(std::to_string(i + 1));
  }
  const std::string limit = fixed_text(units::kPercentPerWhole * *vehicle.side_balance_limit, 1) + " %";
  if (uneven.empty()) {
    finding.note("On every load the sides of the bed differ by at most " + limit + " of the mass of its panels.");
  } else {
    finding.note("The sides of the bed differ by more than " + limit + " of the mass of the panels on load " +
                 part_names(uneven) + ": move the rows sideways, or spread heavy panels over both sides.");
  }
}

void note_sides(FindingBuilder& finding, const DeliveryList& list) {
  std::vector<std::string> on_edge;
  for (const DeliveryItem& item : list.items) {
    if (!item.on_foot) on_edge.push_back(list.project.panels[item.panel].mark);
  }
  if (on_edge.empty()) return;
  finding.note("Too high for the route on their foot, so on their left edge with the foot to the headboard: " +
               part_names(on_edge) +
               ". Each must be turned up before it is lifted into place; see structural.turning_up.");
}

/// The panels that no forklift reaches in their turn.
void note_rearranged(FindingBuilder& finding, const DeliveryList& list) {
  for (std::size_t i = 0; i < list.loads.size(); ++i) {
    if (!list.loads[i].rearranged) continue;
    std::vector<std::string> marks;
    for (const std::size_t item : lifted_over_others(list.loads[i], list.items)) {
      marks.push_back(list.project.panels[list.items[item].panel].mark);
    }
    finding.note("Load " + std::to_string(i + 1) + " has its rows put anew to hold more, for setting " +
                 "'quantities.transport.lifted_out_upwards' says that panels are lifted out of their racks upwards. " +
                 (marks.empty() ? "None stands behind another that is needed later."
                                : "Lifted out over others that are needed later: " + part_names(marks) + "."));
  }
}

void add_notes(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  finding.note(
      "Panels stand upright in racks, on their foot where the route's height allows it, in rows in the middle of the "
      "bed. Row 1 is at the unloading side and holds what is erected first; each row fills from the headboard "
      "backwards, and the vehicle is loaded in reverse. Seen from inside, the left edge of a panel on its foot points "
      "to the headboard.");
  note_rearranged(finding, list);
  note_sides(finding, list);
  finding.note(
      "Kingpin and axle group are those of panels and racks; the vehicle's own mass is not in them. The balance "
      "across the bed and the centre above the deck are those of the panels alone.");
  note_balance(finding, list, vehicle);
  if (list.loads.size() > kLoadsDrawn) {
    finding.note("The first " + std::to_string(kLoadsDrawn) + " loads are drawn; the tables hold them all.");
  }
  finding.note(
      "Bound L1 is the mass of all panels over the payload less the racks, and the floor of all panels, each with its "
      "clear distance, over that of the bed; bound L2 is that of the lengths in rows. Each is rounded up.");
  finding.note(
      "In the plans panels are drawn thicker than they are, so that hatches and load numbers can be told apart.");
  finding.note(
      "Axle loads are a guide for planning. Lashing, the distribution of the load and permits for abnormal loads are "
      "the haulier's; racks and unloading need a lift plan by a competent person.");
}

/// What the panels' own findings say of their masses and centres of gravity, by panel of the project.
struct Weights {
  const PanelValues& masses;
  const PanelValues& centres;
};

Vec3 centre_of(const Finding& finding) {
  return {value_of(finding, "from_left_edge", "m"), value_of(finding, "from_inner_face", "m"),
          value_of(finding, "from_foot", "m")};
}

/// One item a panel in the given order; notes the panels that the vehicle cannot carry.
std::vector<DeliveryItem> items_of(FindingBuilder& finding, const Project& project, const Weights& weights,
                                   const std::vector<std::size_t>& order, const Vehicle& vehicle) {
  std::vector<DeliveryItem> items;
  items.reserve(order.size());
  std::size_t refused = 0;
  Table all{"Panels that the vehicle cannot carry", {{"panel", ""}, {"why", ""}}, {}};
  for (const std::size_t index : order) {
    const Panel& panel = project.panels[index];
    items.push_back(delivery_item(panel, index, weights.masses.entries[index].value,
                                  centre_of(*weights.centres.entries[index].finding), vehicle));
    const DeliveryItem& item = items.back();
    const bool sized = item.length > 0 && item.height > 0 && item.thickness > 0;
    const std::string reason = sized ? fits_alone(item, vehicle) : "has no width, height or thickness: state all three";
    if (reason.empty()) continue;
    all.rows.push_back({panel.mark, reason});
    if (++refused <= kRefusalsNamed) finding.missing("panel '" + panel.mark + "' " + reason);
  }
  if (refused > kRefusalsNamed) {
    finding.missing(std::to_string(refused - kRefusalsNamed) +
                    " more panels that the vehicle cannot carry, all in the "
                    "table '" +
                    all.title + "'");
    finding.table(std::move(all));
  }
  return items;
}

}  // namespace

DeliveryPlan plan_deliveries(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                             const ErectionSequence& sequence) {
  DeliveryPlan plan{{kDeliveriesCheck, ""}, {}, {}, {}};
  FindingBuilder& finding = plan.finding;
  finding.decimals(0);
  plan.vehicle = read_vehicle(finding, settings);
  for (const std::string& problem : sequence.problems) finding.missing(problem);
  if (!sequence.concerned.rows.empty()) finding.table(sequence.concerned);
  const PanelValues masses = panel_values(panels, kMassCheck.id);
  const PanelValues centres = panel_values(panels, kCentreOfGravityCheck.id);
  if (!project.panels.empty()) {
    if (!masses.whole()) finding.missing(masses.what_is_missing(kMassCheck.id));
    if (!centres.whole()) finding.missing(centres.what_is_missing(kCentreOfGravityCheck.id));
  }
  if (finding.incomplete()) return plan;
  plan.items = items_of(finding, project, {masses, centres}, sequence.panels, plan.vehicle);
  if (!finding.incomplete()) plan.loads = pack_loads(plan.items, plan.vehicle);
  return plan;
}

std::vector<std::size_t> load_of_panels(const DeliveryPlan& plan) {
  std::vector<std::size_t> loads(plan.loads.empty() ? 0 : plan.items.size());
  for (std::size_t i = 0; i < plan.loads.size(); ++i) {
    for (const PlacedItem& placed : plan.loads[i].items) loads[plan.items[placed.item].panel] = i;
  }
  return loads;
}

Finding report_deliveries(DeliveryPlan plan, const Project& project, DeliveryDates dates) {
  FindingBuilder& finding = plan.finding;
  if (finding.incomplete()) return finding.not_assessed();
  const DeliveryList list{project, std::move(plan.items), std::move(plan.loads), std::move(dates)};
  add_steps(finding, list, plan.vehicle);
  finding.table(load_table(list)).table(balance_table(list, plan.vehicle)).table(panel_table(list));
  add_drawings(finding, list, plan.vehicle);
  add_notes(finding, list, plan.vehicle);
  return finding.inform(static_cast<double>(list.loads.size()), "loads");
}

CheckOutcome site_findings(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  const ErectionSequence sequence = erection_sequence(project);
  DeliveryPlan plan = plan_deliveries(project, panels, settings, sequence);
  Programme programme = plan_programme(project, panels, settings, sequence, load_of_panels(plan));
  CheckOutcome outcome;
  std::vector<Finding>& findings = outcome.findings;
  if (installation_has_begun(project, programme.dates.erected, settings)) {
    findings.push_back(records_against_programme(project, programme.finding, programme.dates.erected, settings));
  } else {
    outcome.not_applicable.push_back({kRecordsCheck.id, "no panel has a day of installation, Panel_Install.Date"});
  }
  if (storage_limited(settings)) findings.push_back(site_storage(programme, settings));
  findings.push_back(report_deliveries(std::move(plan), project, std::move(programme.dates)));
  findings.push_back(std::move(programme.finding));
  return outcome;
}

}  // namespace panel_dossier::quantities
