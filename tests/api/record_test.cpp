// Records of panels: cells by column, deliveries by number.
#include "core/api/model/record.h"

#include <catch2/catch.hpp>

#include "core/api/finding/check_declaration.h"
#include "core/api/model/project.h"

using namespace panel_dossier;

namespace {

PanelRecord as_built_record() {
  PanelRecord record;
  record.table = "as_built";
  record.day = "2026-03-02";
  record.values = {{"width", 2.4, "m"}, {"note", std::string("measured again"), ""}};
  record.origin.kind = OriginKind::export_file;
  record.origin.table = "records/as_built.csv";
  record.origin.row = "3";
  return record;
}

}  // namespace

TEST_CASE("A cell of a record is asked for by its column and tells row and column") {
  const PanelRecord record = as_built_record();
  const auto width = record.number("width");
  REQUIRE(width);
  CHECK(width->value == 2.4);
  CHECK(width->origin.row == "3");
  CHECK(width->origin.property == "width");
  CHECK(record.words("note") == "measured again");
}

TEST_CASE("An empty cell of a record, and one of another kind, is none") {
  const PanelRecord record = as_built_record();
  CHECK_FALSE(record.number("height"));
  CHECK_FALSE(record.number("note"));
  CHECK_FALSE(record.text("width"));
  CHECK(record.words("width").empty());
}

TEST_CASE("A delivery is found by its number alone") {
  Project project;
  project.deliveries = {{"D-1", "2026-02-01", "sawmill", {}}, {"D-2", "2026-02-08", "sawmill", {}}};
  REQUIRE(find_delivery(project, "D-2") != nullptr);
  CHECK(find_delivery(project, "D-2")->day == "2026-02-08");
  CHECK(find_delivery(project, "D") == nullptr);
}

TEST_CASE("A check says which tables of records it reads") {
  const std::vector<CheckInput> inputs = with_records({property("Panel_Install.Date")}, {"inspections"});
  REQUIRE(inputs.size() == 2);
  CHECK(inputs[1].source == CheckInput::Source::model);
  CHECK(inputs[1].name == "inspections");
  CHECK(inputs[1].optional);
}
