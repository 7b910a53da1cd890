// How studs are held up a panel, and what loads do to them: statics by hand.
#include "plugins/structural/studs/stud_system.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace panel_dossier::structural;

namespace {

/// A panel of 7.0 m with supports every 3.0 m: at 0, 3 and 6 m.
DesignBasis seven_metres() {
  DesignBasis basis;
  basis.support_spacing_m = 3.0;
  basis.top_support_m = 6.0;
  basis.projection_m = 1.0;
  basis.height_m = 7.0;
  return basis;
}

StudSystem system_of(double bottom_m, double top_m, const DesignBasis& basis = seven_metres()) {
  VerticalMember member;
  member.parts = {0};
  member.bottom_m = bottom_m;
  member.top_m = top_m;
  return stud_system(member, basis);
}

void check_at(const std::vector<double>& found_m, const std::vector<double>& expected_m) {
  REQUIRE(found_m.size() == expected_m.size());
  for (std::size_t i = 0; i < found_m.size(); ++i) CHECK(found_m[i] == Approx(expected_m[i]).margin(1e-9));
}

constexpr double kStiffness_nm2 = 1e5;
constexpr double kShearStiffness_n = 1e6;

}  // namespace

TEST_CASE("A stud stands on the supports of the panel that are no more than the depth of a rail from its ends") {
  const StudSystem whole = system_of(0.045, 6.955);
  CHECK(whole.foot_m == 0.0);
  CHECK(whole.length_m == Approx(7.0));
  check_at(whole.supports_m, {0.0, 3.0, 6.0});
  CHECK(whole.projection_m() == Approx(1.0));
  CHECK(whole.longest_span_m() == Approx(3.0));
  CHECK_FALSE(whole.clamped_foot);
  CHECK_FALSE(whole.single_span());
  // Below a sill at 2.1 m, held there by it; and from a lintel at 2.345 m up.
  const StudSystem cripple = system_of(0.045, 2.1);
  check_at(cripple.supports_m, {0.0, 2.1});
  CHECK(cripple.single_span());
  const StudSystem above = system_of(2.345, 5.955);
  CHECK(above.foot_m == Approx(2.345));
  check_at(above.supports_m, {0.0, 0.655, 3.655});
  CHECK(above.single_span() == false);
  CHECK(above.longest_span_m() == Approx(3.0));
  // Just within and just beyond 0.1 m of the support at 3 m.
  check_at(system_of(0.045, 2.9001).supports_m, {0.0, 3.0});
  check_at(system_of(0.045, 2.8999).supports_m, {0.0, 2.8999});
}

TEST_CASE("A stud wholly above the highest support is clamped at its foot, a short piece spans its own length") {
  const StudSystem parapet = system_of(6.045, 6.955);
  CHECK(parapet.clamped_foot);
  CHECK(parapet.foot_m == Approx(6.0));
  CHECK(parapet.length_m == Approx(1.0));
  CHECK(parapet.longest_span_m() == Approx(1.0));
  const StudSystem piece = system_of(2.96, 3.04);
  CHECK_FALSE(piece.clamped_foot);
  check_at(piece.supports_m, {0.0, 0.08});
  DesignBasis plain;
  plain.top_support_m = 3.0;
  check_at(system_of(0.045, 2.955, plain).supports_m, {0.0, 2.91});
}

TEST_CASE("Supports of the panel hold what ends within the depth of a rail of them") {
  CHECK(panel_held_at(seven_metres(), 0.1));
  CHECK(panel_held_at(seven_metres(), 2.91));
  CHECK_FALSE(panel_held_at(seven_metres(), 1.5));
  CHECK(panel_held_at(seven_metres(), 6.1));
  CHECK_FALSE(panel_held_at(seven_metres(), 6.2));
}

TEST_CASE("A cantilever is bent by w·a²/2 and its tip goes down by w·a⁴/8EI and the shear's w·a²/2GA") {
  const StudSystem parapet = system_of(6.045, 6.955);
  const StudEffects effects = stud_effects(parapet, 1000.0, {});
  CHECK(effects.moment_nm == Approx(1000.0 / 2.0));
  CHECK(effects.shear_n == Approx(1000.0));
  const SpanDeflection deflection = span_deflection(parapet, 1000.0, {}, kStiffness_nm2, kShearStiffness_n);
  CHECK(deflection.span_m == 0.0);
  CHECK(deflection.tip_m == Approx(1000.0 / (8.0 * kStiffness_nm2) + 1000.0 / (2.0 * kShearStiffness_n)));
}

TEST_CASE("Pieces spliced at their supports count as simple spans where that is worse") {
  DesignBasis basis = seven_metres();
  basis.projection_m = 0.0;
  basis.height_m = 6.0;
  StudSystem whole = system_of(0.045, 5.955, basis);
  StudSystem spliced = whole;
  spliced.spliced = true;
  // A load in the middle of the first of two spans: 13/64 of P·l at it on the continuous beam, P·l/4 on a simple one.
  const std::vector<PointLoad> load{{1.5, 100.0}};
  CHECK(stud_effects(whole, 0.0, load).moment_nm == Approx(13.0 / 64.0 * 100.0 * 3.0));
  CHECK(stud_effects(spliced, 0.0, load).moment_nm == Approx(100.0 * 3.0 / 4.0));
  // A line load: the simple span goes down by 5·w·l⁴/384EI and the shear's w·l²/8GA.
  const SpanDeflection simple = span_deflection(spliced, 1000.0, {}, kStiffness_nm2, kShearStiffness_n);
  CHECK(simple.span_m == Approx(3.0));
  CHECK(simple.bending_m == Approx(5.0 * 1000.0 * 81.0 / (384.0 * kStiffness_nm2)).epsilon(1e-3));
  CHECK(simple.shear_m == Approx(1000.0 * 9.0 / (8.0 * kShearStiffness_n)).epsilon(1e-3));
  CHECK(span_deflection(whole, 1000.0, {}, kStiffness_nm2, kShearStiffness_n).total_m() < simple.total_m());
  CHECK(simple.tip_m == 0.0);
}

TEST_CASE("Loads at the very ends of a stud, or beyond them, do not bend it") {
  const StudSystem stud = system_of(0.045, 2.955);
  for (const double at_m : {-0.2, 0.0, 3.0, 3.4}) {
    CHECK(stud_effects(stud, 0.0, {{at_m, 100.0}}).moment_nm == Approx(0.0).margin(1e-9));
  }
  CHECK(stud_effects(stud, 0.0, {{1.0, 300.0}}).moment_nm == Approx(300.0 * 1.0 * 2.0 / 3.0));
}
