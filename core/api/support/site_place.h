// Places on the building site in the project's plan, such as those of a crane, and how far a panel stands from them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/origin.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"

namespace panel_dossier {

/// Without a value where the settings have none. In m, of the project's frame.
struct SitePlace {
  std::optional<Sourced<double>> x_m;
  std::optional<Sourced<double>> y_m;
};

/// Settings `x_m` and `y_m` of `group`, and those of its `further_places`, in that order; never empty.
std::vector<SitePlace> site_places(const Settings& settings, const std::string& group);

/// The place nearest to `point` in plan; one that lacks a coordinate, where any does, for that is then what to tell.
/// Precondition: `places` is not empty.
const SitePlace& nearest_place(const std::vector<SitePlace>& places, const Vec3& point);

/// Middle of width and thickness at the panel's foot, where it stands in the building.
Vec3 middle_of_foot(const Panel& panel);

}  // namespace panel_dossier
