// Writes the sample project's export.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <string>
#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/export_project.h"
#include "sample_project/generator/plain_walls.h"
#include "sample_project/generator/project_folder.h"
#include "sample_project/generator/step_writer.h"
#include "sample_project/generator/xml_writer.h"

namespace {

int run(int argc, const char* const* argv) {
  CLI::App app{"Writes the sample project (IFC4 ADD2 TC1) as ifcXML, in STEP form, or both", "sample-export"};
  std::string out;
  std::string step;
  std::string plain;
  std::size_t panels = sample_export::panels_per_wing();
  std::string project;
  auto* form = app.add_option_group("form");
  form->add_option("--out", out, "ifcXML file to write");
  form->add_option("--step", step, "STEP file to write");
  form->add_option("--plain", plain,
                   "STEP file of IFC2x3 to write, with walls as an ordinary CAD program exports them");
  form->add_option("--project", project,
                   "folder to write a whole project to: the ifcXML file health-centre.ifcxml and, fitted to the number "
                   "of panels, settings, prices, targets and evidence");
  form->require_option(1, 4);
  app.add_option("--panels", panels,
                 "number of panels; more wings are added as needed, each a building with the same 60 panels")
      ->check(CLI::Range(std::size_t{1}, std::size_t{1000000}))
      ->capture_default_str();
  std::vector<std::string> marks;
  app.add_option("--only", marks, "marks of the panels to write, separated by commas")->delimiter(',');
  CLI11_PARSE(app, argc, argv);
  sample_export::Site site(panels);
  if (!marks.empty()) site.keep_only(marks);
  const auto write_xml = [&site](const std::filesystem::path& file) {
    sample_export::XmlWriter xml(file);
    sample_export::write_export(xml, site);
  };
  if (!out.empty()) write_xml(out);
  if (!project.empty()) {
    sample_export::write_project_folder(PANEL_DOSSIER_SAMPLE_DIR, project, panels);
    write_xml(std::filesystem::path(project) / "health-centre.ifcxml");
  }
  if (!step.empty()) {
    const auto& schema = panel_dossier::step_schema(PANEL_DOSSIER_SCHEMA_DIR, panel_dossier::Generation::ifc4);
    sample_export::StepWriter writer(step, schema);
    sample_export::write_export(writer, site);
  }
  if (!plain.empty()) sample_export::write_plain_walls(plain);
  return EXIT_SUCCESS;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "sample-export: error: %s\n", error.what());
    return EXIT_FAILURE;
  }
}
