#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>

#include "core/cli/commands.h"
#include "core/cli/scaffold/scaffold_names.h"
#include "core/cli/scaffold/scaffold_plan.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/cli/terminal/refusal.h"

namespace panel_dossier {

namespace {

struct ScaffoldOptions {
  std::string id;
  std::filesystem::path folder;
};

void print_next_steps(const ScaffoldPlan& plan, const ScaffoldNames& names, const std::filesystem::path& folder) {
  if (plan.in_repository) {
    std::cout << "next: clang-format -i what is new or changed, then build and run " << names.plugin << "_test\n";
    return;
  }
  const std::string build = (folder / "build").string();
  std::cout << "next:\n"
            << "  cmake -S " << folder.string() << " -B " << build << " -DCMAKE_PREFIX_PATH=PREFIX\n"
            << "  cmake --build " << build << '\n'
            << "  ctest --test-dir " << build << " --output-on-failure\n";
}

int scaffold(const ScaffoldOptions& options) {
  const ScaffoldNames names = names_of(options.id);
  const ScaffoldPlan plan = scaffold_plan(names, options.folder, default_scaffold_dir());
  if (plan.is_new_plugin && !plan.in_repository &&
      std::filesystem::exists(default_plugin_dir() / (names.plugin + ".so"))) {
    throw std::runtime_error("'" + names.plugin +
                             "' is a discipline of the program itself, which would refuse a second plugin of that "
                             "name; give another discipline, or the folder plugins/" +
                             names.plugin + " of the source");
  }
  try {
    write_plan(plan);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "; nothing was written\n";
    return exit_status::kIncomplete;
  }
  for (const PlannedFile& file : plan.files) {
    std::cout << (file.is_new ? "new:     " : "changed: ") << file.file.string() << '\n';
  }
  print_next_steps(plan, names, options.folder);
  return exit_status::kClean;
}

}  // namespace

void add_scaffold_command(CLI::App& app, int& status) {
  auto options = std::make_shared<ScaffoldOptions>();
  CLI::App* command =
      app.add_subcommand("scaffold", "Make a toy check that works: a new plugin, or one more check of a plugin");
  command->add_option("DISCIPLINE.NAME", options->id, "Id of the check, for example workshop.face_area")
      ->required()
      ->check(CLI::Validator(id_fault, "ID"));
  command->add_option("--into", options->folder, "A new or empty folder, or the folder of a plugin of the discipline")
      ->required();
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return scaffold(*options); }); });
}

}  // namespace panel_dossier
