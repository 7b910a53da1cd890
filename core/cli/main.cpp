#include <CLI/CLI.hpp>
#include <exception>
#include <iostream>

#include "core/api/support/text_encoding.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/pipeline/heap.h"

namespace {

constexpr const char* kDescription =
    "Reads a project of factory-made timber cassette panels from an ifcXML export, runs every check and writes one "
    "signed "
    "PDF handover dossier in which every figure can be traced.";

constexpr const char* kFooter =
    "Exit status: 0 done and every check that applies passes; 1 done, some verdicts fail; 4 done, nothing fails but "
    "something is open; 2 input refused; 3 a plugin or the environment "
    "failed; 64 wrong usage; 128 + N: stopped by signal N.\n"
    "Example: panel-dossier build sample_project/health-centre.ifcxml --out sample_project/out";

int run(int argc, char** argv) {
  using namespace panel_dossier;
  CLI::App app(kDescription, "panel-dossier");
  app.footer(kFooter);
  app.set_version_flag("--version", "panel-dossier " PANEL_DOSSIER_VERSION);
  app.require_subcommand(1);
  int status = exit_status::kClean;
  add_init_command(app, status);
  add_build_command(app, status);
  add_assemble_command(app, status);
  add_check_command(app, status);
  add_trace_command(app, status);
  add_compare_command(app, status);
  add_verify_command(app, status);
  add_sign_command(app, status);
  add_extend_command(app, status);
  add_plugins_command(app, status);
  add_scaffold_command(app, status);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? exit_status::kClean : exit_status::kUsage;
  }
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  panel_dossier::keep_heap_small();
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::cerr << "panel-dossier: error: " << panel_dossier::visible_text(error.what()) << '\n';
  } catch (...) {
    std::cerr << "panel-dossier: error: something that is no std::exception was thrown\n";
  }
  return panel_dossier::exit_status::kIncomplete;
}
