// Which documents of the evidence are read as declarations, and whose they are.
#include "plugins/carbon/declarations/declared_material.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "core/api/testing/panels.h"
#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
using namespace panel_dossier::carbon;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kDeclarationFile = "field,module,value,unit\nGWP-fossil,A1-A3,1.5,kg CO2e\n";

/// A project with a document a case of `read_declaration_files`.
struct Documents {
  TemporaryFolder folder;
  Project project;

  Documents() { project.folder = folder.path().string(); }

  void add(const std::string& id, const std::string& location, EvidenceStatus status = EvidenceStatus::present) {
    project.evidence.push_back({id, id, location, status, {}});
  }
  void name(const std::string& id) {
    const std::size_t material = add_material(project, "material", "", 500.0, 0.1);
    put(project.materials[material].properties, "Panel_EnvironmentalDeclaration", "DocumentId", id);
  }
};

}  // namespace

TEST_CASE("only what a material names, is there and has a form that is read is opened") {
  Documents d;
  for (const char* file : {"named.csv", "unnamed.csv", "absent.csv"}) d.folder.write(file, kDeclarationFile);
  d.folder.write("text.pdf", "%PDF");
  d.folder.write("faulty.csv", "field,module,value,unit\n\nGWP-fossil,A1-A3,x,kg CO2e\n");
  d.folder.write("empty.xml", "");
  d.add("named", "named.csv");
  d.add("unnamed", "unnamed.csv");
  d.add("absent", "absent.csv", EvidenceStatus::missing);
  d.add("text", "text.pdf");
  d.add("faulty", "faulty.csv");
  d.add("empty", "empty.xml");
  for (const char* id : {"named", "absent", "text", "faulty", "empty", "nowhere"}) d.name(id);
  std::vector<InputProblem> problems;
  const auto files = read_declaration_files(d.project, problems);
  REQUIRE(files.size() == 6);
  REQUIRE(files[0].content);
  CHECK(files[0].content->values.front().value.value == 1.5);
  for (const std::size_t i : {1U, 2U, 3U}) {
    CHECK_FALSE(files[i].content);
    CHECK(files[i].fault.empty());
  }
  CHECK(files[4].fault == "faulty.csv:3: 'x' is not a number");
  CHECK(files[5].fault == "empty.xml: the file is empty");
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].file == "faulty.csv");
  CHECK(problems[0].line == 3);
  CHECK(problems[1].line == 0);
  CHECK(problems[1].message == "declaration: the file is empty; its content is not used");
  CHECK(problems[1].advice == "ask the supplier for it again, in UTF-8");

  const auto materials = declared_materials(d.project, files);
  REQUIRE(materials.size() == 6);
  CHECK(materials[0].file == &*files[0].content);
  CHECK(materials[1].file == nullptr);
  CHECK(materials[1].document == &d.project.evidence[2]);
  CHECK(materials[3].file_fault == files[4].fault);
  CHECK(materials[5].document == nullptr);
}

TEST_CASE("two documents of one id are kept apart: the first is the material's") {
  Documents d;
  d.folder.write("one.csv", kDeclarationFile);
  d.folder.write("two.csv", "field,module,value,unit\nGWP-fossil,A1-A3,2.5,kg CO2e\n");
  d.add("EPD", "one.csv");
  d.add("EPD", "two.csv");
  d.name("EPD");
  std::vector<InputProblem> problems;
  const auto files = read_declaration_files(d.project, problems);
  REQUIRE(files[0].content);
  REQUIRE(files[1].content);
  CHECK(declared_materials(d.project, files).front().file == &*files[0].content);
}
