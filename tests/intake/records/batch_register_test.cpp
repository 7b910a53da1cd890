// From a batch to its panels and back, by what the export and the records say.
#include "core/intake/records/batch_register.h"

#include <catch2/catch.hpp>

#include "core/api/support/words.h"
#include "tests/intake/records/records_project.h"

using namespace panel_dossier;
using namespace panel_dossier::intake_test;

namespace {

constexpr const char* kReference = "Pset_ManufacturerOccurrence.BatchReference";

std::string batch_of(const Part& part) {
  const auto text = part.properties.text("Pset_ManufacturerOccurrence", "BatchReference");
  return text ? text->value : "none";
}

/// `B1 of Softwood: stud; D-1; P-01 P-02`, one line a batch.
std::string register_of(const Project& project) {
  std::string text;
  for (const MaterialBatch& batch : project.batches) {
    std::vector<std::string> marks;
    for (const std::size_t panel : batch.panels) marks.push_back(project.panels[panel].mark);
    text += batch.reference + " of " + batch.material + ": " + joined(batch.kinds) + "; " + joined(batch.deliveries) +
            "; " + joined(marks, " ") + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("Batches of the export's parts are registered both ways") {
  RecordsProject records;
  for (Panel& panel : records.project.panels) {
    testing::put(panel.parts[0].properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B1"));
  }
  testing::put(records.second().parts[2].properties, "Pset_ManufacturerOccurrence", "BatchReference",
               std::string("B2"));
  records.read();
  CHECK(register_of(records.project) == "B1 of Softwood: stud; ; P-01 P-02\nB2 of Board: sheet; ; P-02\n");
  CHECK(records.first().batches == std::vector<std::size_t>{0});
  CHECK(records.second().batches == std::vector<std::size_t>{0, 1});
}

TEST_CASE("A row of a material is of all its parts in the panel, one of a part of that part alone") {
  RecordsProject records;
  records
      .with("batches.csv",
            "mark,day,batch,material,part,delivery\nP-01,2026-03-01,B1,Softwood,,D-1\n"
            "P-02,2026-03-01,B1,,Stud 01,D-1\nP-02,2026-03-01,B2,,Stud 02,D-2\n")
      .with("deliveries.csv",
            "day,by,delivery,material,document,claim,certificate\n"
            "2026-02-01,Sawmill,D-1,Softwood,DN-1,CERTIFIED,COC-1\n2026-02-08,Sawmill,D-2,Softwood,,,\n")
      .read();
  CHECK(records.told().empty());
  CHECK(batch_of(records.first().parts[0]) == "B1");
  CHECK(batch_of(records.first().parts[1]) == "B1");
  CHECK(batch_of(records.first().parts[2]) == "none");
  CHECK(batch_of(records.second().parts[1]) == "B2");
  const Properties& stud = records.first().parts[0].properties;
  CHECK(stud.text("Panel_Supply", "DeliveryNote")->value == "DN-1");
  CHECK(stud.text("Panel_Supply", "ChainOfCustodyClaim")->value == "CERTIFIED");
  CHECK(stud.text("Panel_Supply", "ChainOfCustodyDocument")->value == "COC-1");
  CHECK(stud.text("Panel_Supply", "ChainOfCustodyDate")->value == "2026-02-01");
  CHECK(stud.text("Panel_Supply", "DeliveryNote")->origin.table == "records/deliveries.csv");
  CHECK_FALSE(records.second().parts[1].properties.text("Panel_Supply", "ChainOfCustodyClaim"));
  // The row of a part does not name its material; its delivery does.
  CHECK(register_of(records.project) == "B1 of Softwood: stud; D-1; P-01 P-02\nB2 of Softwood: stud; D-2; P-02\n");
  REQUIRE(records.project.deliveries.size() == 2);
  CHECK(find_delivery(records.project, "D-2")->day == "2026-02-08");
}

TEST_CASE("Of two batches of one material no part can be told which it is of") {
  RecordsProject records;
  records.with("batches.csv", "mark,day,batch,material\nP-01,2026-03-01,B1,Softwood\nP-01,2026-03-01,B2,Softwood\n")
      .read();
  CHECK(records.told().empty());
  CHECK(batch_of(records.first().parts[0]) == "none");
  CHECK(register_of(records.project) == "B1 of Softwood: ; ; P-01\nB2 of Softwood: ; ; P-01\n");
}

TEST_CASE("A batch that the export calls otherwise is withheld, and the register holds both") {
  RecordsProject records;
  for (Part& part : records.first().parts) {
    testing::put(part.properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B1"));
  }
  records.with("batches.csv", "mark,day,batch,material\nP-01,2026-03-01,B7,Softwood\n").read();
  CHECK(records.told() ==
        "records/batches.csv:2: warning: 1111111111111111111111: 'Pset_ManufacturerOccurrence.BatchReference' of the "
        "parts of 'Softwood' of panel 'P-01' is 'B1' by the export, but 'B7' by the records (records/batches.csv, row "
        "2), and is not used; correct one of them\n");
  CHECK(batch_of(records.first().parts[0]) == "none");
  CHECK(records.first().parts[0].properties.withheld().contains(kReference));
  CHECK(batch_of(records.first().parts[2]) == "B1");
  CHECK(records.first().contradictions.contains("batches"));
  CHECK(register_of(records.project) ==
        "B1 of Board: sheet; ; P-01\nB1 of Softwood: stud; ; P-01\nB7 of Softwood: ; ; P-01\n");
}

TEST_CASE("A part or material that the panel does not have is warned of, and the batch is registered all the same") {
  RecordsProject records;
  records.with("batches.csv", "mark,day,batch,material,part\nP-01,2026-03-01,B1,,Stud 09\nP-01,2026-03-01,B2,Oak,\n")
      .read();
  CHECK(
      records.told() ==
      "records/batches.csv:2: warning: 1111111111111111111111: panel 'P-01' has no part 'Stud 09'; the batch is kept "
      "in the register, for no part; write the part's name as the export has it\n"
      "records/batches.csv:3: warning: 1111111111111111111111: the export has no material 'Oak'; the batch is kept in "
      "the register, for no part; write the material's name as the export has it\n");
  CHECK(register_of(records.project) == "B1 of : ; ; P-01\nB2 of Oak: ; ; P-01\n");
}

TEST_CASE("A claim that the export's material states otherwise is withheld from the part") {
  RecordsProject records;
  testing::put(records.project.materials[0].properties, "Panel_Supply", "ChainOfCustodyClaim",
               std::string("CONTROLLED"));
  records.with("batches.csv", "mark,day,batch,material,delivery\nP-01,2026-03-01,B1,Softwood,D-1\n")
      .with("deliveries.csv", "day,delivery,claim\n2026-02-01,D-1,CERTIFIED\n")
      .read();
  CHECK(
      records.told() ==
      "records/deliveries.csv:2: warning: 1111111111111111111111: 'Panel_Supply.ChainOfCustodyClaim' of 'Softwood' in "
      "panel 'P-01' is 'CONTROLLED' by the export, but 'CERTIFIED' by the records (records/deliveries.csv, row 2), and "
      "is not used; correct one of them\n");
  CHECK(records.first().parts[0].properties.withheld().contains("Panel_Supply.ChainOfCustodyClaim"));
}
