#include "core/intake/claims/building_claims.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

// Floors and roofs are measured to structure or finish and plans to different faces: half a metre between two sources
// says nothing, and is far less than a storey or a bay (common practice).
constexpr double kMeasuredOtherwise_m = 0.5;
// Heads of panels may stand so far over the roof as a parapet (common practice).
constexpr double kHighestParapet_m = 1.5;

struct Extent {
  double least = std::numeric_limits<double>::infinity();
  double most = -std::numeric_limits<double>::infinity();

  void take(double value) {
    least = std::min(least, value);
    most = std::max(most, value);
  }
};

struct PanelsExtent {
  Extent z;              ///< in the project's frame
  double area_m2 = 0.0;  ///< of the faces that are part of the envelope, or do not say
};

PanelsExtent extent_of(const Project& project) {
  PanelsExtent extent;
  for (const Panel& panel : project.panels) {
    const auto external = panel.properties.logical("Pset_WallCommon", "IsExternal");
    if (!external || external->value) extent.area_m2 += panel.gross_area_m2();
    for (const double z : {0.0, panel.height_m.value}) extent.z.take(panel.frame.to_parent(Vec3{0.0, 0.0, z}).z);
  }
  return extent;
}

std::string to_centimetre(double value_m) {
  return fixed_text(value_m, 2) + " m";
}

class BuildingClaims {
 public:
  BuildingClaims(Settings& settings, const Project& project, std::string file, Confirmations& confirmations)
      : settings_(settings),
        project_(project),
        file_(std::move(file)),
        confirmations_(confirmations),
        panels_(extent_of(project)) {}

  Diagnostics look() {
    if (project_.panels.empty()) return {};
    look_at_ground();
    look_at_storeys();
    look_at_height();
    look_at_envelope();
    return std::move(diagnostics_);
  }

 private:
  Settings& settings_;
  const Project& project_;
  std::string file_;
  Confirmations& confirmations_;
  PanelsExtent panels_;
  Diagnostics diagnostics_;

  void contradict(const std::string& key, double value, const std::string& shown, const std::string& export_says) {
    if (confirmations_.confirm(key, {}, value, export_says)) return;
    const std::string what = "is " + shown + ", but " + export_says;
    const std::string advice = "correct one of them, or confirm it with a reason under `confirmed_values`";
    settings_.withhold(key, "setting " + key + " " + what + "; " + advice);
    diagnostics_.push_back({Severity::warning, file_, 0, 0, key, {}, what + ", and is not used", advice});
  }

  /// Of the ground in the height system of the storeys: the setting, else the lowest storey.
  std::optional<double> ground() const {
    if (const auto set = settings_.number("building.ground_level_m")) return set->value;
    for (const Storey& storey : project_.storeys) {
      if (storey.elevation_m) return storey.elevation_m->value;
    }
    return std::nullopt;
  }

  void look_at_ground() {
    const auto stated = settings_.number("building.ground_level_m");
    if (!stated || stated->value <= panels_.z.least + kMeasuredOtherwise_m) return;
    contradict("building.ground_level_m", stated->value, to_centimetre(stated->value),
               "the lowest panel of the export stands at " + to_centimetre(panels_.z.least));
  }

  /// What heights are counted from, for a reason.
  std::string above_ground() const {
    const bool is_set = settings_.number("building.ground_level_m").has_value();
    return is_set ? " above the ground" : " above the lowest storey (set building.ground_level_m if that is no ground)";
  }

  void look_at_storeys() {
    const auto stated = settings_.number("building.top_storey_height_m");
    const auto ground_m = ground();
    if (!stated || !ground_m) return;
    std::optional<double> top;
    std::string name;
    for (const Panel& panel : project_.panels) {
      if (!panel.storey) continue;
      const Storey& storey = project_.storeys[*panel.storey];
      if (!storey.elevation_m || (top && storey.elevation_m->value <= *top)) continue;
      top = storey.elevation_m->value;
      name = storey.name;
    }
    if (!top) return;
    const double height = *top - *ground_m;
    if (stated->value >= height - kMeasuredOtherwise_m) return;
    contradict("building.top_storey_height_m", stated->value, to_centimetre(stated->value),
               "storey '" + name + "' of the export, which has panels, lies " + to_centimetre(height) + above_ground());
  }

  void look_at_height() {
    const auto stated = settings_.number("building.height_m");
    const auto ground_m = ground();
    if (!stated || !ground_m) return;
    const double height = panels_.z.most - *ground_m;
    if (stated->value >= height - kHighestParapet_m) return;
    contradict("building.height_m", stated->value, to_centimetre(stated->value),
               "the highest panel of the export ends " + to_centimetre(height) + above_ground());
  }

  void look_at_envelope() {
    const auto envelope = settings_.number("building.envelope_area_m2");
    if (envelope && envelope->value < panels_.area_m2) {
      contradict("building.envelope_area_m2", envelope->value, fixed_text(envelope->value, 1) + " m²",
                 "the panels of the export alone have " + fixed_text(panels_.area_m2, 1) + " m²");
    }
    const auto volume = settings_.number("building.volume_m3");
    if (!envelope || !volume) return;
    // No body holds more than a sphere of the same surface: V ≤ A^1.5 / (6 √π).
    const double most = std::pow(envelope->value, 1.5) / (6.0 * std::sqrt(std::numbers::pi));
    if (volume->value <= most) return;
    contradict("building.volume_m3", volume->value, fixed_text(volume->value, 1) + " m³",
               "an envelope of " + fixed_text(envelope->value, 1) + " m² holds at most " + fixed_text(most, 1) + " m³");
  }
};

}  // namespace

Diagnostics withhold_contradicted(Settings& settings, const Project& project, const std::string& settings_file,
                                  Confirmations& confirmations) {
  return BuildingClaims(settings, project, settings_file, confirmations).look();
}

}  // namespace panel_dossier
