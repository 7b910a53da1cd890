#include "plugins/structural/members/bearing.h"

#include <algorithm>
#include <limits>

namespace panel_dossier::structural {

namespace {

constexpr double kSpread_m = 0.030;

double spread_m(const Contact& contact, double end_m, const std::optional<double>& gap_m) {
  const double half_gap_m = gap_m ? *gap_m / 2.0 : std::numeric_limits<double>::infinity();
  return std::max(0.0, std::min({kSpread_m, end_m, contact.length_m, half_gap_m}));
}

}  // namespace

double effective_contact_length_m(const Contact& contact) {
  return contact.length_m + spread_m(contact, contact.end_left_m, contact.gap_left_m) +
         spread_m(contact, contact.end_right_m, contact.gap_right_m);
}

double bearing_factor(TimberFamily family, const Contact& contact) {
  const auto near = [&](const std::optional<double>& gap_m) { return gap_m && *gap_m < 2.0 * contact.rail_depth_m; };
  if (near(contact.gap_left_m) || near(contact.gap_right_m)) return 1.0;
  return family == TimberFamily::glulam ? 1.5 : 1.25;
}

}  // namespace panel_dossier::structural
