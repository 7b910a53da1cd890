// Libraries that speak of types of panels and of single ones, and forms that nobody has filled in.
#include <catch2/catch.hpp>

#include "tests/intake/library/office_library.h"

namespace panel_dossier {
namespace {

using intake_test::holds;
using intake_test::OfficeLibrary;

void add_panel(OfficeLibrary& office, const std::string& mark, const std::string& type) {
  Panel panel;
  panel.mark = mark;
  panel.type = type;
  office.project.panels.push_back(panel);
}

std::string arrangement(const OfficeLibrary& office, std::size_t panel) {
  const auto found = office.project.panels[panel].properties.text("Panel_Identity", "Arrangement");
  return found ? found->value : "none";
}

TEST_CASE("A row of a type serves its panels, and a row of a mark goes before it", "[intake]") {
  OfficeLibrary office;
  add_panel(office, "N-01", "INF");
  add_panel(office, "N-02", "INF");
  add_panel(office, "N-03", "OVS");
  office.add("panels.csv",
             "product,name,Arrangement,Largest height tested [mm],source,day\n"
             "Infill,INF,INFILL,3600,list 1,2026-03-01\n"
             "Second panel,N-02,OVERSAIL,,list 1,2026-03-01\n");
  CHECK(office.told() ==
        "../office/panels.csv:3: warning: Panel_Identity.Arrangement of 'N-02' is 'OVERSAIL', but 'INFILL' of its type "
        "in ../office/panels.csv row 2; that of the panel is used; correct one of them, if the panel does not differ "
        "from its type\n");
  CHECK(arrangement(office, 0) == "INFILL");
  CHECK(arrangement(office, 1) == "OVERSAIL");
  CHECK(arrangement(office, 2) == "none");
  // What the panel's own row leaves open comes from that of its type.
  CHECK(office.project.panels[1].properties.number("Panel_FireEvidence", "MaxHeight")->value == 3.6);
}

TEST_CASE("Panels are found by their classification too", "[intake]") {
  OfficeLibrary office;
  add_panel(office, "N-01", "INF");
  office.project.panels[0].classifications = {"W-330"};
  office.add("panels.csv", "product,classification,Arrangement,source,day\nWalls,W-330,INFILL,list 1,2026-03-01\n");
  CHECK(arrangement(office, 0) == "INFILL");
}

TEST_CASE("What the export says of a panel stands against the library, and neither is used", "[intake]") {
  OfficeLibrary office;
  add_panel(office, "N-01", "INF");
  office.project.panels[0].properties.add("Panel_Identity", "Arrangement", {std::string("OVERSAIL"), "", {}});
  office.add("panels.csv", "product,name,Arrangement,source,day\nInfill,INF,INFILL,list 1,2026-03-01\n");
  CHECK(holds(office.told(), "Panel_Identity.Arrangement of 'INF' is 'OVERSAIL' in the export and 'INFILL' in "));
  CHECK(arrangement(office, 0) == "none");
}

TEST_CASE("What the reading of the export needs is no column of a library", "[intake]") {
  OfficeLibrary office;
  add_panel(office, "N-01", "INF");
  office.add("panels.csv",
             "product,name,Panel_Construction.FirstLayerFace,source,day\nInfill,INF,INSIDE,list 1,2026-03-01\n");
  CHECK(holds(office.told(), "column 'Panel_Construction.FirstLayerFace' is no property that is known of a panel"));
}

TEST_CASE("A row of a form that nobody filled in says nothing, half of one is told", "[intake]") {
  OfficeLibrary office;
  add_panel(office, "N-01", "INF");
  office.add("panels.csv", "product,name,Arrangement,source,day\nINF,INF,,,\nOVS,OVS,,,\n");
  CHECK(office.told().empty());
  OfficeLibrary half;
  half.add("panels.csv", "product,name,Arrangement,source,day\nINF,INF,INFILL,,\n");
  CHECK(holds(half.told(), "column 'source': is empty"));
}

}  // namespace
}  // namespace panel_dossier
