#include "core/pipeline/csv_outputs.h"

#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace panel_dossier;

namespace {

Finding finding(const std::string& check, const std::string& panel, Value value, const std::string& unit) {
  Finding result;
  result.check = check;
  result.panel = panel;
  result.value = std::move(value);
  result.unit = unit;
  result.verdict = Verdict::information;
  return result;
}

Panel panel(const std::string& mark, std::optional<std::size_t> storey) {
  Panel result;
  result.global_id = "id-" + mark;
  result.mark = mark;
  result.type = "infill";
  result.storey = storey;
  result.width_m.value = 2.4;
  result.height_m.value = 3.0;
  result.thickness_m.value = 0.2977000000004;
  return result;
}

/// Two panels; the second has no mass.
struct Build {
  Project project;
  Results results;

  Build() {
    project.storeys.resize(1);
    project.storeys[0].name = "Ground, north";
    project.panels = {panel("P1", 0), panel("P2", std::nullopt)};
    results.panel_findings = {
        {finding("quantities.area", "id-P1", 7.5, "m²"), finding("quantities.mass", "id-P1", 0.1, "kg"),
         finding("thermal.u_value", "id-P1", 0.2, "W/(m²·K)")},
        {finding("quantities.area", "id-P2", 1.0, "m²"), finding("quantities.mass", "id-P2", Value{}, "")}};
    results.project_findings = {finding("quantities.area", "", 8.5, "m²"), finding("quantities.mass", "", Value{}, "")};
  }
};

const std::string kStepHeadings =
    ",gross_area_m2,openings_m2,centre_from_left_edge_m,centre_from_inner_face_m,centre_from_foot_m\r\n";

Finding list_of(const std::string& panel, std::vector<std::vector<Value>> rows) {
  Finding list = finding("quantities.cutting_list", panel, 1.0, "pieces");
  list.tables = {{"Cutting list", {{"part mark", ""}, {"length", "mm"}}, std::move(rows)}};
  return list;
}

}  // namespace

TEST_CASE("quantities.csv has a row a panel, a column a numeric quantity and a total") {
  const Build build;
  CHECK(quantities_csv(build.project, build.results) ==
        "global_id,mark,type,storey,width_m,height_m,thickness_m,area_m2,mass_kg" + kStepHeadings +
            "id-P1,P1,infill,\"Ground, north\",2.4,3,0.2977,7.5,0.1,,,,,\r\n"
            "id-P2,P2,infill,,2.4,3,0.2977,1,,,,,,\r\n"
            "TOTAL,,,,,,,8.5,,,,,,\r\n");
}

TEST_CASE("a quantity in words has no column") {
  Build build;
  build.results.panel_findings[0].push_back(finding("quantities.note", "id-P1", std::string("words"), ""));
  CHECK(quantities_csv(build.project, build.results).find("note") == std::string::npos);
}

TEST_CASE("one check in two units has two columns and no mixed total") {
  Build build;
  build.results.panel_findings[1][0].unit = "ft²";
  CHECK(quantities_csv(build.project, build.results) ==
        "global_id,mark,type,storey,width_m,height_m,thickness_m,area_ft2,area_m2,mass_kg" + kStepHeadings +
            "id-P1,P1,infill,\"Ground, north\",2.4,3,0.2977,,7.5,0.1,,,,,\r\n"
            "id-P2,P2,infill,,2.4,3,0.2977,1,,,,,,,\r\n"
            "TOTAL,,,,,,,,8.5,,,,,,\r\n");
}

TEST_CASE("a project without panels still gives header and total") {
  CHECK(quantities_csv(Project{}, Results{}) ==
        "global_id,mark,type,storey,width_m,height_m,thickness_m" + kStepHeadings + "TOTAL,,,,,,,,,,,\r\n");
  CHECK(cutting_csv(Project{}, Results{}) == "mark,type,storey,batch,erection_order\r\n");
}

TEST_CASE("cutting.csv has every row of every panel's list behind its mark") {
  Build build;
  build.results.panel_findings[0].push_back(
      list_of("id-P1", {{std::string("ST1"), 2417.0}, {std::string("RL1"), 0.5}}));
  build.results.panel_findings[1].push_back(list_of("id-P2", {{std::string("ST1"), 1200.125}}));
  CHECK(cutting_csv(build.project, build.results) ==
        "mark,type,storey,batch,erection_order,part_mark,length_mm\r\n"
        "P1,infill,\"Ground, north\",,,ST1,2417\r\n"
        "P1,infill,\"Ground, north\",,,RL1,0.5\r\n"
        "P2,infill,,,,ST1,1200.125\r\n");
}

TEST_CASE("batch and erection order of a panel stand behind the storey") {
  Build build;
  Finding time = finding("quantities.erection_time", "id-P1", Value{0.5}, "h");
  time.steps = {{"batch", "", std::string("B2"), "", ""}, {"erection order", "", 14.0, "", ""}};
  build.results.panel_findings[0].push_back(time);
  build.results.panel_findings[0].push_back(list_of("id-P1", {{std::string("ST1"), 2417.0}}));
  CHECK(cutting_csv(build.project, build.results) ==
        "mark,type,storey,batch,erection_order,part_mark,length_mm\r\n"
        "P1,infill,\"Ground, north\",B2,14,ST1,2417\r\n");
}

TEST_CASE("a list that was not assessed has no rows") {
  Build build;
  build.results.panel_findings[0].push_back(finding("quantities.cutting_list", "id-P1", Value{}, ""));
  build.results.panel_findings[1].push_back(list_of("id-P2", {{std::string("ST1"), 1.0}}));
  CHECK(cutting_csv(build.project, build.results) ==
        "mark,type,storey,batch,erection_order,part_mark,length_mm\r\nP2,infill,,,,ST1,1\r\n");
}

TEST_CASE("text is quoted by RFC 4180 and kept from becoming a formula") {
  struct Cell {
    const char* label;
    const char* text;
    const char* expected;
  };
  const Cell cell =
      GENERATE(Cell{"plain", "P1", "P1"}, Cell{"comma", "a,b", "\"a,b\""}, Cell{"quote", "6\" post", "\"6\"\" post\""},
               Cell{"line break", "a\nb", "\"a\nb\""}, Cell{"carriage return inside", "a\rb", "\"a\rb\""},
               Cell{"equals", "=1+1", "'=1+1"}, Cell{"plus", "+44", "'+44"}, Cell{"minus", "-A1", "'-A1"},
               Cell{"at", "@SUM(A1)", "'@SUM(A1)"}, Cell{"tab", "\t=1", "'\t=1"}, Cell{"return", "\r=1", "\"'\r=1\""},
               Cell{"formula with comma", "=A(1,2)", "\"'=A(1,2)\""}, Cell{"equals inside", "a=1", "a=1"});
  INFO(cell.label);
  Build build;
  build.project.panels = {panel(cell.text, std::nullopt)};
  build.project.panels[0].global_id = "id";
  build.results.panel_findings.resize(1);
  CHECK(quantities_csv(build.project, build.results).find("\r\nid," + std::string(cell.expected) + ",infill,") !=
        std::string::npos);
}

TEST_CASE("a negative number is a number and stays bare") {
  Build build;
  build.results.panel_findings[0].push_back(finding("quantities.centre_of_gravity", "id-P1", -0.025, "m"));
  CHECK(quantities_csv(build.project, build.results).find(",7.5,-0.025,0.1,") != std::string::npos);
}

TEST_CASE("numbers keep every digit") {
  Build build;
  build.results.panel_findings[0][1].value = 1234.567891;
  CHECK(quantities_csv(build.project, build.results).find(",1234.567891,") != std::string::npos);
}

TEST_CASE("gross area, openings and the place of the centre of gravity are steps of the findings") {
  Build build;
  build.results.panel_findings[0][0].steps = {{"gross area", "A_gross", 8.9, "m²", ""},
                                              {"area of openings", "A_op", 1.4, "m²", ""}};
  Finding centre = finding("quantities.centre_of_gravity", "id-P1", 0.0, "m");
  centre.steps = {{"from the left edge", "x_G", 1.20049, "m", ""},
                  {"from the inner face", "y_G", 0.14162, "m", ""},
                  {"from the foot", "z_G", 1.6, "m", ""}};
  build.results.panel_findings[0].push_back(centre);
  const std::string csv = quantities_csv(build.project, build.results);
  CHECK(csv.find(",7.5,0,0.1,8.9,1.4,1.2,0.142,1.6\r\n") != std::string::npos);
}

TEST_CASE("deliveries.csv is the list of panels by load, whatever tables stand beside it") {
  Build build;
  CHECK(deliveries_csv(build.results).empty());
  Finding deliveries = finding("quantities.deliveries", "", Value{}, "");
  build.results.project_findings.push_back(deliveries);
  CHECK(deliveries_csv(build.results).empty());
  deliveries.tables = {{"Loads", {{"load", ""}}, {{1.0}}},
                       {"Panels by load",
                        {{"load", ""}, {"panel", ""}, {"behind headboard", "m"}},
                        {{1.0, std::string("P1"), 0.0}, {2.0, std::string("=P2"), 3.4}}}};
  build.results.project_findings.back() = deliveries;
  CHECK(deliveries_csv(build.results) == "load,panel,behind_headboard_m\r\n1,P1,0\r\n2,'=P2,3.4\r\n");
}

TEST_CASE("carbon.csv has each number of each panel's account and then the project's") {
  Build build;
  const auto account = [](const std::string& panel, double fossil, double biogenic) {
    Finding result = finding("carbon.whole_life", panel, 1.0, "kg CO2e/m²");
    result.tables = {{"By module",
                      {{"module", ""}, {"GWP-fossil", "kg CO2e"}, {"GWP-biogenic", "kg CO2e"}},
                      {{std::string("A1–A3"), fossil, biogenic}}}};
    return result;
  };
  build.results.panel_findings[0].push_back(account("id-P1", 1.25, -0.5));
  build.results.panel_findings[1].push_back(finding("carbon.whole_life", "id-P2", Value{}, ""));
  CHECK(carbon_csv(build.project, build.results) ==
        "panel,type,module,indicator,value,unit\r\n"
        "P1,infill,A1-A3,GWP-fossil,1.25,kg CO2e\r\n"
        "P1,infill,A1-A3,GWP-biogenic,-0.5,kg CO2e\r\n");
  build.results.project_findings.push_back(account("", 2.5, -1.0));
  CHECK(carbon_csv(build.project, build.results)
            .ends_with("TOTAL,,A1-A3,GWP-fossil,2.5,kg CO2e\r\n"
                       "TOTAL,,A1-A3,GWP-biogenic,-1,kg CO2e\r\n"));
}

TEST_CASE("carbon.csv has the whole sums of core indicators, and no partial one") {
  Build build;
  const Table whole{"Core indicators, without A4, A5 and B",
                    {{"indicator", ""}, {"unit", ""}, {"A1–A3", ""}, {"D", ""}, {"A1–A3", "per m²"}},
                    {{std::string("AP"), std::string("mol H+ eq."), 0.25, Value{}, 0.05}}};
  Table partial = whole;
  partial.title += ": partial sums";
  partial.rows.front()[0] = std::string("ODP");
  Finding indicators = finding("carbon.core_indicators", "id-P1", 1.0, "indicators whole");
  indicators.tables = {partial, whole};
  build.results.panel_findings[0].push_back(indicators);
  indicators.tables = {partial};
  build.results.panel_findings[1].push_back(indicators);
  CHECK(carbon_csv(build.project, build.results) ==
        "panel,type,module,indicator,value,unit\r\n"
        "P1,infill,A1-A3,AP,0.25,mol H+ eq.\r\n");
}
