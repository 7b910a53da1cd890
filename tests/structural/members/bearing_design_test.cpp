// Contact lengths and factors of EN 1995-1-1:2004+A1:2008 6.1.5, the code's own expressions written once more by hand.
#include "plugins/structural/members/bearing_design.h"

#include <catch2/catch.hpp>

using namespace panel_dossier::structural;

namespace {

Contact stud_on_rail() {
  Contact contact;
  contact.length_m = 0.045;
  contact.width_m = 0.145;
  contact.end_left_m = 1.0;
  contact.end_right_m = 1.0;
  contact.gap_left_m = 0.555;
  contact.gap_right_m = 0.555;
  contact.rail_depth_m = 0.045;
  return contact;
}

}  // namespace

TEST_CASE("The contact length grows by 30 mm a side, not beyond a, l or half of l1") {
  Contact contact = stud_on_rail();
  CHECK(effective_contact_length_m(contact) == Approx(0.105));
  contact.end_left_m = 0.0;  // a stud at the very end of the rail
  CHECK(effective_contact_length_m(contact) == Approx(0.075));
  contact.end_left_m = 0.012;
  CHECK(effective_contact_length_m(contact) == Approx(0.087));
  contact = stud_on_rail();
  contact.length_m = 0.020;  // l itself limits it
  CHECK(effective_contact_length_m(contact) == Approx(0.060));
  contact = stud_on_rail();
  contact.gap_right_m = 0.040;  // half of the way to the next contact
  CHECK(effective_contact_length_m(contact) == Approx(0.095));
}

TEST_CASE("kc,90 on a continuous support is 1.25 for softwood and 1.5 for glulam, 1.0 where contacts lie near") {
  Contact contact = stud_on_rail();
  CHECK(bearing_factor(TimberFamily::solid, contact) == 1.25);
  CHECK(bearing_factor(TimberFamily::glulam, contact) == 1.5);
  contact.gap_left_m = 0.089;  // just below 2·h = 90 mm
  CHECK(bearing_factor(TimberFamily::solid, contact) == 1.0);
  CHECK(bearing_factor(TimberFamily::glulam, contact) == 1.0);
}
