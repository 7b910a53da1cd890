// Writes the sample project's export.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>
#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/export_project.h"
#include "sample_project/generator/plain_walls.h"
#include "sample_project/generator/step_writer.h"
#include "sample_project/generator/xml_writer.h"

namespace {

int run(int argc, const char* const* argv) {
  CLI::App app{"Writes the sample project (IFC4 ADD2 TC1) as ifcXML, in STEP form, or both", "sample-export"};
  std::string out;
  std::string step;
  std::string plain;
  std::size_t panels = sample_export::panels_per_wing();
  auto* form = app.add_option_group("form");
  form->add_option("--out", out, "ifcXML file to write");
  form->add_option("--step", step, "STEP file to write");
  form->add_option("--plain", plain,
                   "STEP file of IFC2x3 to write, with walls as an ordinary CAD program exports them");
  form->require_option(1, 3);
  app.add_option("--panels", panels, "number of panels; more wings are added as needed")
      ->check(CLI::Range(std::size_t{1}, std::size_t{1000000}))
      ->capture_default_str();
  std::vector<std::string> marks;
  app.add_option("--only", marks, "marks of the panels to write, separated by commas")->delimiter(',');
  CLI11_PARSE(app, argc, argv);
  std::vector<sample_export::PlacedPanel> placed = sample_export::place_panels(panels);
  if (!marks.empty()) {
    std::erase_if(placed, [&](const sample_export::PlacedPanel& panel) {
      return std::find(marks.begin(), marks.end(), panel.mark) == marks.end();
    });
  }
  if (!out.empty()) {
    sample_export::XmlWriter xml(out);
    sample_export::write_export(xml, placed);
  }
  if (!step.empty()) {
    const auto& schema = panel_dossier::step_schema(PANEL_DOSSIER_SCHEMA_DIR, panel_dossier::Generation::ifc4);
    sample_export::StepWriter writer(step, schema);
    sample_export::write_export(writer, placed);
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
