#include "core/trace/panel_text.h"

#include <catch2/catch.hpp>

#include "core/trace/results_reader.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

TEST_CASE("A derivation shows every finding with its inputs, origins and steps") {
  const std::string text = panel_text(sample_document(), "P-02");
  for (const char* part :
       {"panel 'P-02', id-of-P-02, type 'T1', storey 'ground floor'", "thermal.u_value: fail",
        "Thermal transmittance: 0.30 W/(m²·K), at most 0.18 W/(m²·K), utilisation 1.67",
        "by calculation, EN ISO 6946:2017, 6.7", "because more than the limit; add insulation",
        "input thermal conductivity λ = 0.038 W/(m·K)\n          from IfcMaterial, line 7",
        "from resistances.csv, row 'horizontal' (EN ISO 6946:2017, table 7)", "from setting 'thermal.jurisdiction'",
        "step  resistance of the layer R, R = d / λ = 0.3333333333333333 m²·K/W", "fire.reaction_to_fire: pass"}) {
    CHECK_THAT(text, Catch::Contains(part));
  }
}

TEST_CASE("A derivation shows the panel's path to the root") {
  const auto document = sample_document();
  const std::string text = panel_text(document, "id-of-P-02");
  CHECK_THAT(text, Catch::Contains(document.panels[1].hash + " (leaf 2 of 4)"));
  CHECK_THAT(text, Catch::Contains("joined with             " + document.panels[0].hash));
  CHECK_THAT(text, Catch::Contains(document.build.hash_tree_root));
  CHECK_THAT(text, !Catch::Contains("DOES NOT LEAD"));
}

TEST_CASE("A derivation says when the path does not lead to the root") {
  auto document = sample_document();
  document.panels[0].hash.front() = document.panels[0].hash.front() == '0' ? '1' : '0';
  CHECK_THAT(panel_text(document, "P-02"), Catch::Contains("DOES NOT LEAD TO THE ROOT"));
}

TEST_CASE("A derivation says when it is not the one that was hashed") {
  std::string json = to_json(sample_document());
  CHECK_THAT(panel_text(results_from_json(json), "P-02"),
             !Catch::Contains("WERE HASHED") && !Catch::Contains("WAS HASHED"));
  const std::string note = "a note";
  json.replace(json.find(note), note.size(), "a lie");
  const std::string text = panel_text(results_from_json(json), "P-02");
  CHECK_THAT(text, Catch::Contains("note  a lie") && Catch::Contains("THE DERIVATION IS NOT THE ONE THAT WAS HASHED"));
  CHECK_THAT(text, !Catch::Contains("THE FINDINGS ARE NOT"));
}

TEST_CASE("A trace says when the findings are not those that were hashed") {
  auto document = sample_document();
  document.panels[1].findings[1].verdict = Verdict::pass;
  CHECK_THAT(panel_text(document, "P-02"), Catch::Contains("THE FINDINGS ARE NOT THOSE THAT WERE HASHED"));
  CHECK_THAT(panel_text(document, "P-01"), !Catch::Contains("THE FINDINGS ARE NOT"));
}

TEST_CASE("An unknown panel is refused with the nearest marks") {
  CHECK_THROWS_WITH(panel_text(sample_document(), "P-2"),
                    Catch::StartsWith("no panel 'P-2' in these results; did you mean 'P-02'"));
  CHECK_THROWS_WITH(panel_text(sample_document(), "entirely different"),
                    "no panel 'entirely different' in these results");
}

TEST_CASE("Edit distances are the fewest single changes") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("abc", "") == 3);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("P-01", "P-10") == 2);
}

TEST_CASE("Nearest names come first and far ones not at all") {
  CHECK(nearest("P-1", {"Q-99", "P-11", "P-01", "P-1x", "wall"}, 2) == std::vector<std::string>{"P-11", "P-01"});
  CHECK(nearest("zzz", {"P-11"}, 2).empty());
}
