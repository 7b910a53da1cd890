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

namespace {

int run(int argc, const char* const* argv) {
  CLI::App app{"Writes the sample project as ifcXML (IFC4 ADD2 TC1)", "sample-export"};
  std::string out;
  std::size_t panels = sample_export::panels_per_wing();
  app.add_option("--out", out, "file to write")->required();
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
  sample_export::write_export(out, placed);
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
