// A few panels of the sample, written as ifcXML and in STEP form by one generator: the reader must not tell them apart.
#include <catch2/catch.hpp>
#include <cstdlib>

#include "core/api/support/words.h"
#include "core/api/testing/temporary_folder.h"
#include "tests/intake/project_text.h"
#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

struct BothForms {
  IntakeResult xml;
  IntakeResult step;
};

BothForms sample_in_both_forms() {
  const testing::TemporaryFolder folder;
  const std::string xml = (folder.path() / "few.ifcxml").string();
  const std::string step = (folder.path() / "few.ifc").string();
  const std::string command =
      "'" PANEL_DOSSIER_SAMPLE_GENERATOR "' --only S0-01,E1-03,N2-02 --out '" + xml + "' --step '" + step + "'";
  REQUIRE(std::system(command.c_str()) == 0);  // NOLINT(cert-env33-c): a fixed program of this build
  IntakeOptions options = intake_test::options();
  options.project_dir = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "sample_project";
  return {read_export(std::filesystem::path(xml), options), read_export(std::filesystem::path(step), options)};
}

std::string names_of_layers(const Project& project) {
  std::string text;
  for (const Panel& panel : project.panels) {
    for (const Layer& layer : panel.layers) {
      text += panel.mark + " " + layer.name + " " + layer.category + " " +
              (layer.is_ventilated ? (*layer.is_ventilated ? "ventilated" : "still") : "") + "\n";
    }
    for (const Part& part : panel.parts) {
      // A value of an enumeration stands in small letters in XML and in capitals in STEP.
      text += lower_case(part.object_type) + " " + (part.material ? project.materials[*part.material].name : "") + "\n";
      for (const auto& [name, property] : part.properties.all()) text += name + " " + property.unit + "\n";
    }
    for (const std::size_t document : panel.evidence) text += project.evidence[document].id + "\n";
  }
  return text;
}

TEST_CASE("the sample in STEP form gives the same project as in XML, but for origins", "[intake]") {
  const BothForms read = sample_in_both_forms();
  INFO(intake_test::all_of(read.step.diagnostics));
  REQUIRE(read.xml.project);
  REQUIRE(read.step.project);
  REQUIRE(read.step.project->panels.size() == 3);
  CHECK(intake_test::describe(*read.step.project) == intake_test::describe(*read.xml.project));
  CHECK(names_of_layers(*read.step.project) == names_of_layers(*read.xml.project));
  CHECK(read.step.skipped == read.xml.skipped);
  REQUIRE(read.step.diagnostics.size() == read.xml.diagnostics.size());
  for (std::size_t i = 0; i < read.step.diagnostics.size(); ++i) {
    CHECK(read.step.diagnostics[i].message == read.xml.diagnostics[i].message);
  }
}

}  // namespace
}  // namespace panel_dossier
