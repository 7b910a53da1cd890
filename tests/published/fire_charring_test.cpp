// EN 1995-1-2:2004: charring and protection. No text of the standard was at hand: what only restates a formula says so;
// the rest follows from what the rules must give at their limits, or from one part of them by way of another.
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/support/data_table.h"
#include "plugins/fire/calculation/charring.h"

using namespace panel_dossier;
using namespace panel_dossier::fire;

namespace {

DataTable table(const char* path) {
  return DataTable(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / path);
}

/// Depth of an unprotected member with the whole zero-strength layer.
double unprotected_mm(double time_min, double rate_mm_per_min) {
  const double k0 = zero_strength_factor(time_min, 0.0);
  return protected_member(0.0, 0.0, rate_mm_per_min, 1.0).depth_mm(time_min) + k0 * kZeroStrengthLayer_mm;
}

}  // namespace

TEST_CASE("Charring rates are those of EN 1995-1-2 table 3.1") {
  const DataTable rates = table("plugins/fire/data/charring_rates.csv");
  CHECK(rates.number("SOFTWOOD", "one_dimensional_mm_per_min")->value == 0.65);
  CHECK(rates.number("SOFTWOOD", "notional_mm_per_min")->value == 0.8);
  CHECK(rates.number("GLULAM", "notional_mm_per_min")->value == 0.7);
  CHECK(rates.number("LVL", "notional_mm_per_min")->value == 0.7);
  CHECK(rates.number("HARDWOOD", "one_dimensional_mm_per_min")->value == 0.5);
  CHECK(rates.number("HARDWOOD", "notional_mm_per_min")->value == 0.55);
}

TEST_CASE("An unprotected softwood member has an effective char depth of 55 mm after 60 minutes") {
  // Formula restated, from memory: 0.8·60 + 7 mm; glulam 0.7·60 + 7 = 49 mm. Exact.
  CHECK(unprotected_mm(60.0, 0.8) == Approx(55.0));
  CHECK(unprotected_mm(60.0, 0.7) == Approx(49.0));
  CHECK(unprotected_mm(30.0, 0.8) == Approx(31.0));
}

TEST_CASE("Gypsum boards of 12.5 and 15 mm delay charring by 21 and 28 minutes") {
  // Formula restated, from memory: (3.11), tch = 2.8·hp − 14. Exact.
  CHECK(gypsum_charring_start_min(12.5) == Approx(21.0));
  CHECK(gypsum_charring_start_min(15.0) == Approx(28.0));
}

TEST_CASE("Beside an open joint gypsum delays charring by 9 minutes less") {
  // Formula restated, from memory: (3.12), tch = 2.8·hp − 23 at unfilled gaps of more than 2 mm: 12.5 mm 12 min, 15 mm
  // 19 min. Exact.
  CHECK(gypsum_charring_start_min(12.5, true) == Approx(12.0));
  CHECK(gypsum_charring_start_min(15.0, true) == Approx(19.0));
}

TEST_CASE("Behind a type F board that stays in place timber chars at k2 of the plain rate") {
  // Formula restated, from memory: (3.7), k2 = 1 − 0.018·hp: 15 mm 0.73, 12.5 mm 0.775. Exact.
  CHECK(slow_factor(15.0) == Approx(0.73));
  CHECK(slow_factor(12.5) == Approx(0.775));
}

TEST_CASE("Studs between stone wool char by the factors of annex C") {
  // Formulas and table restated, from memory. Table C1: ks 1.4, 1.3 and 1.1 at 38, 45 and 60 mm; kn = 1.5; k2 = 1.05 −
  // 0.0073·15 = 0.9405 (C.3); k3 = 1 + 0.036·28 = 2.008 (C.6). β0 = 0.65: 0.65·1.3·1.5·2.008 = 2.545 mm/min. Exact but
  // for 3 decimals of 2.545.
  const DataTable sections = table("plugins/fire/data/stud_section.csv");
  CHECK(sections.number("38", "section_factor")->value == 1.4);
  CHECK(sections.number("45", "section_factor")->value == 1.3);
  CHECK(sections.number("60", "section_factor")->value == 1.1);
  CHECK(insulated_slow_factor(15.0) == Approx(0.9405));
  CHECK(insulated_fast_factor(28.0) == Approx(2.008));
  const CharringPhases phases = insulated_stud(28.0, 28.0, 0.65, 1.3, insulated_slow_factor(15.0));
  CHECK(phases.fast_mm_per_min == Approx(2.545).margin(0.0005));
}

TEST_CASE("A fastener reaches 10 mm into timber that has not charred") {
  // Formula restated, from memory: (3.16), lf,req = hp + dchar,0 + la with la = 10 mm: 15 mm board, 8 mm of char: 33
  // mm. Exact.
  CHECK(required_fastener_length_mm(15.0, 8.0) == Approx(33.0));
}

TEST_CASE("A wood panel of reference density and 20 mm chars through at its tabulated rate") {
  // Formula restated, from memory: (3.10) with kρ = kh = 1: 20/0.9 = 22.2 min. Exact. Other densities and thicknesses,
  // (3.4) to (3.6): OSB 12 mm of 550 kg/m³: kρ = √(450/550) = 0.9045, kh = √(20/12) = 1.2910; 12/(0.9·0.9045·1.2910)
  // = 11.42 min; two decimals.
  CHECK(wood_panel_charring_start_min(12.0, 0.9, 550.0) == Approx(11.42).margin(0.005));
  CHECK(wood_panel_charring_start_min(20.0, 0.9, 450.0) == Approx(20.0 / 0.9));
}

TEST_CASE("The char depth is the integral of the charring rate") {
  // Rates of EN 1995-1-2 3.4.3.2 integrated in steps of 1/1000 min, apart from the closed form. The midpoint rule errs
  // by at most one step's depth at each of two kinks: 2·1.6/1000 mm.
  const double start_min = 21.0;
  const double rate = 0.8;
  double depth_mm = 0.0;
  const int steps = 60'000;
  for (int i = 0; i < steps; ++i) {
    const double t = 60.0 * (i + 0.5) / steps;
    if (t <= start_min) continue;
    const bool fast = depth_mm < 25.0 && t < 2.0 * start_min;
    depth_mm += (fast ? 2.0 : 1.0) * rate * 60.0 / steps;
  }
  CHECK(protected_member(start_min, start_min, rate, 1.0).depth_mm(60.0) == Approx(depth_mm).margin(0.0032));
}

TEST_CASE("A fastener pulls out when the timber that holds it is down to 10 mm") {
  // (C.9) from (3.16): until pull-out at the rate β the char is β·(t − tch), and by (3.16) the fastener that this char
  // asks for is the one that was there. Exact.
  for (const double fastener_mm : {26.0, 35.0, 45.0, 70.0}) {
    for (const double rate : {0.5, 0.8, 1.3}) {
      const double falls_min = pull_out_min(28.0, fastener_mm, 15.0, rate);
      INFO(fastener_mm << " mm at " << rate << " mm/min");
      CHECK(required_fastener_length_mm(15.0, rate * (falls_min - 28.0)) == Approx(fastener_mm));
    }
  }
}

TEST_CASE("Protection delays char, and a board that stays delays it more") {
  // 3.4.3.2 and its figures 3.4 to 3.6: the curve of a member whose board falls at tch at most touches that of an
  // unprotected one. Where (3.9) ends the fast phase, that is from tch = 25/(2·0.8) = 15.6 min on, a board that stays
  // never makes the char deeper. Before that (3.9) as recalled does not hold the curve under the unprotected one.
  const double rate = 0.8;
  for (double start_min = 0.0; start_min <= 40.0; start_min += 2.5) {
    const CharringPhases falls = protected_member(start_min, start_min, rate, 1.0);
    const CharringPhases stays = protected_member(start_min, start_min + 8.0, rate, slow_factor(15.0));
    INFO(start_min);
    CHECK(falls.depth_mm(start_min) == 0.0);
    for (double t = 0.0; t <= 60.0; t += 1.0) {
      CHECK(falls.depth_mm(t) <= rate * t + 1e-9);
      if (start_min > 15.7) CHECK(stays.depth_mm(t) <= falls.depth_mm(t) + 1e-9);
    }
  }
}

TEST_CASE("Annex C joins the simple cases at its limits") {
  // Without protection k3 = 1: a narrow face chars at k_s·k_n·β0 from the start; and k3 grows with the heat that has
  // entered the cavity by then. The sides are kept by the wool, so a 60 mm face chars no faster than 1.1·1.5·0.65 =
  // 1.07 mm/min and slower than a 38 mm one.
  CHECK(insulated_stud(0.0, 0.0, 0.65, 1.1, 1.0).depth_mm(30.0) == Approx(1.1 * 1.5 * 0.65 * 30.0));
  CHECK(insulated_stud(0.0, 0.0, 0.65, 1.1, 1.0).depth_mm(30.0) <
        insulated_stud(0.0, 0.0, 0.65, 1.4, 1.0).depth_mm(30.0));
  for (double falls_min = 0.0; falls_min < 60.0; falls_min += 5.0) {
    CHECK(insulated_fast_factor(falls_min) < insulated_fast_factor(falls_min + 5.0));
  }
  // A board that stays after charring has started slows it: k2 below 1 for every gypsum board of 9 to 30 mm.
  for (double board_mm = 9.0; board_mm <= 30.0; board_mm += 3.0) {
    CHECK(insulated_slow_factor(board_mm) < 1.0);
    CHECK(insulated_slow_factor(board_mm) > 0.0);
  }
}

TEST_CASE("Thicker and denser boards hold the char off for longer, gypsum joints that gape for less") {
  // 3.4.3.3 without its figures: the order of the times, not their size. 450 kg/m³ and 20 mm are the reference at which
  // β0 of table 3.1 holds as it stands.
  for (double board_mm = 9.0; board_mm < 25.0; board_mm += 1.0) {
    INFO(board_mm);
    CHECK(gypsum_charring_start_min(board_mm) < gypsum_charring_start_min(board_mm + 1.0));
    CHECK(gypsum_charring_start_min(board_mm, true) < gypsum_charring_start_min(board_mm));
    CHECK(wood_panel_charring_start_min(board_mm, 0.9, 550.0) <
          wood_panel_charring_start_min(board_mm + 1.0, 0.9, 550.0));
    CHECK(wood_panel_charring_start_min(board_mm, 0.9, 450.0) < wood_panel_charring_start_min(board_mm, 0.9, 550.0));
  }
  CHECK(density_factor(450.0) == 1.0);
  CHECK(thickness_factor(20.0) == 1.0);
  CHECK(thickness_factor(40.0) == 1.0);
}

TEST_CASE("Partial factors of the load in fire are those of the structural checks") {
  const DataTable fire = table("plugins/fire/data/load_factors.csv");
  const DataTable structure = table("plugins/structural/data/national_annex.csv");
  const DataTable psi = table("plugins/structural/data/combination_factors.csv");
  CHECK(fire.keys() == structure.keys());
  for (const std::string& key : fire.keys()) {
    INFO(key);
    for (const char* column : {"gamma_g_unfavourable", "gamma_q"}) {
      CHECK(fire.number(key, column)->value == structure.number(key, column)->value);
    }
    const char* wind = key == "UK" ? "psi1" : "psi2";
    CHECK(fire.number(key, "wind_in_fire")->value == psi.number(key + "/W", wind)->value);
  }
}

TEST_CASE("Strengths used in fire are those of the structural strength classes") {
  const DataTable fire = table("plugins/fire/data/timber_in_fire.csv");
  const DataTable structure = table("plugins/structural/data/strength_classes.csv");
  CHECK(fire.keys() == structure.keys());
  for (const std::string& key : fire.keys()) {
    INFO(key);
    for (const char* column : {"compression_parallel", "modulus_fifth"}) {
      CHECK(fire.number(key, column)->value == structure.number(key, column)->value);
    }
    CHECK(fire.text(key, "family")->value == structure.text(key, "family")->value);
  }
}
