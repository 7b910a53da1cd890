#include "plugins/quantities/delivery_finding.h"

#include <algorithm>

#include "core/api/exact_sum.h"
#include "core/api/finding_builder.h"
#include "core/api/panel_values.h"
#include "plugins/quantities/delivery_drawing.h"
#include "plugins/quantities/delivery_plan.h"
#include "plugins/quantities/delivery_report.h"
#include "plugins/quantities/programme.h"

namespace panel_dossier::quantities {

namespace {

/// More pictures than these say nothing new; the tables have every load.
constexpr std::size_t kLoadsDrawn = 8;
constexpr std::size_t kRefusalsNamed = 5;
constexpr double kPercent = 100.0;

/// The panel on its longer side, its left edge seen from inside, or its foot, to the front.
DeliveryItem item_of(const Panel& panel, std::size_t index, const PanelValue& mass, const PanelValue& centre) {
  const Micrometres width = micrometres(panel.width_m.value);
  const Micrometres height = micrometres(panel.height_m.value);
  const bool on_its_foot = width >= height;
  return {index,
          std::max(width, height),
          std::min(width, height),
          micrometres(panel.thickness_m.value),
          micrometres(step_value(*centre.finding, on_its_foot ? "x_G" : "z_G")),
          milligrams(mass.value)};
}

std::vector<DeliveryItem> items_of(FindingBuilder& finding, const Project& project, const PanelValues& masses,
                                   const PanelValues& centres, const ErectionSequence& sequence,
                                   const Vehicle& vehicle) {
  std::vector<DeliveryItem> items;
  std::size_t refused = 0;
  for (const std::size_t index : sequence.panels) {
    const Panel& panel = project.panels[index];
    items.push_back(item_of(panel, index, masses.entries[index], centres.entries[index]));
    const DeliveryItem& item = items.back();
    const bool sized = item.length > 0 && item.height > 0 && item.thickness > 0;
    const std::string reason = sized ? fits_alone(item, vehicle) : "has no width, height or thickness: state all three";
    if (!reason.empty() && ++refused <= kRefusalsNamed) finding.missing("panel '" + panel.mark + "' " + reason);
  }
  if (refused > kRefusalsNamed) {
    finding.missing(std::to_string(refused - kRefusalsNamed) + " more panels that the vehicle cannot carry");
  }
  return items;
}

void add_steps(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  ExactSum mass;
  for (const Load& load : list.loads) mass.add(kilograms(load.mass));
  const LoadBounds bounds = load_bounds(list.items, vehicle);
  const auto loads = static_cast<double>(list.loads.size());
  finding.step("panels, each in one load", "n", static_cast<double>(list.items.size()), "")
      .step("mass of the panels of all loads", "ΣM", mass.total(), "kg")
      .step("loads that the mass alone needs, bound L1", "N_m", static_cast<double>(bounds.by_mass), "",
            "N_m = ΣM / (payload − racks), rounded up")
      .step("loads that the floor alone needs, bound L1", "N_f", static_cast<double>(bounds.by_floor), "",
            "N_f = Σ(l+s)·(t+s) / ((L+s)·(W+s)), rounded up")
      .step("loads that the rows alone need, bound L2 on lengths", "N_r", static_cast<double>(bounds.by_rows), "")
      .step("loads that no packing can save", "N_min", static_cast<double>(bounds.least()), "",
            "N_min = max(N_m, N_f, N_r)")
      .step("loads in the order of erection", "N", loads, "")
      .step("mean use of the payload", "",
            kPercent * (mass.total() / loads + kilograms(vehicle.racks)) / kilograms(vehicle.payload), "%");
}

void add_drawings(FindingBuilder& finding, const DeliveryList& list, const Vehicle& vehicle) {
  const std::size_t drawn = std::min(list.loads.size(), kLoadsDrawn);
  for (std::size_t i = 0; i < drawn; ++i) {
    finding.drawing(load_side_view(list, i, vehicle)).drawing(load_plan(list, i, vehicle));
  }
  for (Drawing& plan : storey_plans(list)) finding.drawing(std::move(plan));
}

void add_notes(FindingBuilder& finding, const DeliveryList& list) {
  finding.note(
      "Panels stand upright on their longer side in racks, in rows along the middle of the bed. Row 1 is at the "
      "unloading side and "
      "holds what is erected first; each row fills from the headboard backwards, and the vehicle is loaded in "
      "reverse.");
  finding.note(
      "The left edge of a panel, seen from inside, or its foot when it lies on its side, points to the headboard. "
      "Kingpin and axle group are those of panels and racks; the vehicle's own mass is not in them.");
  if (list.loads.size() > kLoadsDrawn) {
    finding.note("The first " + std::to_string(kLoadsDrawn) + " loads are drawn; the tables hold them all.");
  }
  finding.note(
      "In the plans panels are drawn thicker than they are, so that hatches and load numbers can be told apart.");
  finding.note(
      "Axle loads are a guide for planning. Lashing, the distribution of the load and permits for abnormal loads are "
      "the haulier's; racks and unloading need a lifting plan by a competent person.");
}

}  // namespace

Finding deliveries(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                   const ErectionSequence& sequence, const std::vector<std::string>& dates) {
  FindingBuilder finding("quantities.deliveries", "Vehicle loads in the order of erection", "",
                         "Next-fit in the order of erection; bounds L1 and L2 of Martello and Toth, 1990, chapter 8 "
                         "(from memory); axles by the law of the lever");
  finding.decimals(0);
  const Vehicle vehicle = read_vehicle(finding, settings);
  for (const std::string& problem : sequence.problems) finding.missing(problem);
  const PanelValues masses = panel_values(panels, "quantities.mass");
  const PanelValues centres = panel_values(panels, "quantities.centre_of_gravity");
  if (!project.panels.empty()) {
    if (!masses.whole()) finding.missing(masses.what_is_missing("quantities.mass"));
    if (!centres.whole()) finding.missing(centres.what_is_missing("quantities.centre_of_gravity"));
  }
  if (finding.incomplete()) return finding.not_assessed();
  DeliveryList list{project, items_of(finding, project, masses, centres, sequence, vehicle), {}, dates};
  if (finding.incomplete()) return finding.not_assessed();
  list.loads = pack_loads(list.items, vehicle);
  add_steps(finding, list, vehicle);
  finding.table(load_table(list)).table(panel_table(list));
  add_drawings(finding, list, vehicle);
  add_notes(finding, list);
  return finding.inform(static_cast<double>(list.loads.size()), "loads");
}

std::vector<Finding> site_findings(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings) {
  const ErectionSequence sequence = erection_sequence(project);
  Programme programme = plan_programme(project, panels, settings, sequence);
  std::vector<Finding> findings{deliveries(project, panels, settings, sequence, programme.dates)};
  findings.push_back(std::move(programme.finding));
  return findings;
}

}  // namespace panel_dossier::quantities
