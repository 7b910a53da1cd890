// Writes the sample project's export.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>

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
  CLI11_PARSE(app, argc, argv);
  sample_export::write_export(out, sample_export::place_panels(panels));
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
