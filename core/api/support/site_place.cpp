#include "core/api/support/site_place.h"

#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>

namespace panel_dossier {

std::vector<SitePlace> site_places(const Settings& settings, const std::string& group) {
  std::vector<SitePlace> places{{settings.number(group + ".x_m"), settings.number(group + ".y_m")}};
  for (std::size_t i = 0;; ++i) {
    const std::string further = group + ".further_places." + std::to_string(i);
    SitePlace place{settings.number(further + ".x_m"), settings.number(further + ".y_m")};
    if (!place.x_m && !place.y_m) return places;
    places.push_back(std::move(place));
  }
}

const SitePlace& nearest_place(const std::vector<SitePlace>& places, const Vec3& point) {
  const SitePlace* found = &places.front();
  double least_m = std::numeric_limits<double>::infinity();
  for (const SitePlace& place : places) {
    if (!place.x_m || !place.y_m) return place;
    const double distance_m = std::hypot(point.x - place.x_m->value, point.y - place.y_m->value);
    if (!(distance_m < least_m)) continue;
    found = &place;
    least_m = distance_m;
  }
  return *found;
}

Vec3 middle_of_foot(const Panel& panel) {
  return panel.frame.to_parent(Vec3{panel.width_m.value / 2.0, panel.thickness_m.value / 2.0, 0.0});
}

}  // namespace panel_dossier
