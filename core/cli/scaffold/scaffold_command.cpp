#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <map>
#include <memory>
#include <regex>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/cli/commands.h"
#include "core/cli/planned_files.h"
#include "core/cli/scaffold/scaffold_text.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/settings/settings_schema.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// What the scaffold writes for a new check, worked out whole before anything is written.
struct ScaffoldPlan {
  std::vector<PlannedFile> files;
  bool is_new_plugin = false;
  bool in_repository = false;  ///< the folder is plugins/DISCIPLINE beside core/api
};

/// The discipline of the plugin in the folder. Throws when its entry does not say.
std::string discipline_of(const fs::path& folder) {
  const std::string entry = read_file(folder / "entry.cpp");
  std::smatch found;
  if (!std::regex_search(entry, found, std::regex(R"re(PANEL_DOSSIER_PLUGIN\([^,]+,\s*"([^"]+)"\))re"))) {
    throw std::runtime_error("'" + (folder / "entry.cpp").string() +
                             "' has no PANEL_DOSSIER_PLUGIN(Class, \"DISCIPLINE\"); give the folder of a plugin");
  }
  return found[1];
}

/// The source below the folder that holds the text; empty when none does.
fs::path source_with(const fs::path& folder, const std::string& text) {
  fs::recursive_directory_iterator at(folder);
  for (; at != fs::recursive_directory_iterator(); ++at) {
    if (at->is_directory() && at->path().filename() == "build") at.disable_recursion_pending();
    if (at->path().extension() != ".cpp" && at->path().extension() != ".h") continue;
    if (at->is_regular_file() && read_file(at->path()).find(text) != std::string::npos) return at->path();
  }
  return {};
}

class Planner {
 public:
  Planner(const ScaffoldNames& names, const fs::path& folder, fs::path templates)
      : names_(names), folder_(fs::weakly_canonical(fs::absolute(folder))), templates_(std::move(templates)) {
    // A path that ends in a slash has an empty name.
    if (folder_.filename().empty()) folder_ = folder_.parent_path();
    const fs::path root = folder_.parent_path().parent_path();
    plan_.in_repository = folder_.parent_path().filename() == "plugins" && fs::exists(root / "core/api/plugin.h");
    cases_folder_ = plan_.in_repository ? root / "tests" / names.plugin : folder_ / "tests";
    placeholders_ = placeholders(names, plan_.in_repository ? "plugins/" + names.plugin + "/" : std::string());
  }

  ScaffoldPlan plan() {
    if (plan_.in_repository && folder_.filename() != names_.plugin) {
      throw std::runtime_error("'" + folder_.string() + "' does not have the name of the discipline '" + names_.plugin +
                               "'; in plugins/ both have one name");
    }
    if (!fs::exists(folder_) || (fs::is_directory(folder_) && fs::is_empty(folder_))) {
      plan_.is_new_plugin = true;
      add_plugin();
    } else {
      demand_own_plugin();
    }
    add_check();
    for (const auto& [file, text] : texts_) plan_.files.push_back({file, text, !fs::exists(file)});
    return std::move(plan_);
  }

 private:
  ScaffoldNames names_;
  fs::path folder_;
  fs::path templates_;
  fs::path cases_folder_;
  std::map<std::string, std::string> placeholders_;
  std::map<fs::path, std::string> texts_;  ///< of every file that is written or changed
  ScaffoldPlan plan_;

  std::string from_template(const std::string& name) const {
    return filled(read_file(templates_ / (name + ".in")), placeholders_);
  }

  void add_plugin() {
    for (const char* name : {"checks.h", "checks.cpp", "settings.schema.json", "outputs.json", "README.md"}) {
      texts_[folder_ / name] = from_template(std::string("plugin/") + name);
    }
    texts_[folder_ / "entry.cpp"] =
        with_include(from_template("plugin/entry.cpp"), placeholders_.at("@INCLUDE@") + "checks.h");
    if (plan_.in_repository) return;  // its build and its test program are those of all plugins
    texts_[folder_ / "CMakeLists.txt"] = from_template("outside/CMakeLists.txt");
    texts_[folder_ / "tests/main.cpp"] = from_template("outside/main.cpp");
  }

  void demand_own_plugin() const {
    if (!fs::is_regular_file(folder_ / "entry.cpp")) {
      throw std::runtime_error("'" + folder_.string() +
                               "' is neither empty nor the folder of a plugin, for it has no entry.cpp; give a new "
                               "folder, or that of a plugin");
    }
    if (const std::string discipline = discipline_of(folder_); discipline != names_.plugin) {
      throw std::runtime_error("'" + folder_.string() + "' is the plugin '" + discipline + "', whose checks are '" +
                               discipline + ".NAME'; give such an id, or another folder");
    }
    if (const fs::path source = source_with(folder_, '"' + names_.id() + '"'); !source.empty()) {
      throw std::runtime_error("'" + names_.id() + "' is there already, in '" + source.string() +
                               "'; give the check another name");
    }
  }

  void add_check() {
    add_new(folder_ / (names_.check + ".h"), "check/check.h");
    add_new(folder_ / (names_.check + ".cpp"), "check/check.cpp");
    add_new(cases_folder_ / (names_.check + "_cases.cpp"), "check/check_cases.cpp");
    change("checks.cpp", [&](const std::string& text) {
      return with_check_entered(with_include(text, placeholders_.at("@INCLUDE@") + names_.check + ".h"), names_.check);
    });
    if (!has("settings.schema.json")) {
      texts_[folder_ / "settings.schema.json"] = from_template("plugin/settings.schema.json");
    }
    change("settings.schema.json", [&](const std::string& text) {
      SettingsSchema::check_group(text);
      std::string property = from_template("check/setting.json");
      property.pop_back();  // the line's end
      return with_setting(text, property);
    });
    if (has("README.md")) {
      change("README.md", [&](const std::string& text) { return with_page(text, from_template("check/page.md")); });
    }
  }

  bool has(const char* name) const { return texts_.contains(folder_ / name) || fs::exists(folder_ / name); }

  void add_new(const fs::path& file, const std::string& source) {
    if (texts_.contains(file) || fs::exists(file)) {
      throw std::runtime_error("'" + file.string() + "' is there already; give the check another name");
    }
    texts_[file] = from_template(source);
  }

  template <typename Change>
  void change(const char* name, const Change& change) {
    const fs::path file = folder_ / name;
    const auto planned = texts_.find(file);
    const std::string before = planned == texts_.end() ? read_file(file) : planned->second;
    try {
      texts_[file] = change(before);
    } catch (const std::runtime_error& error) {
      throw std::runtime_error("'" + file.string() + "' " + error.what());
    }
  }
};

/// Of a check in `folder`: a whole plugin where it is absent or empty, else one more check of the plugin that lies
/// there. `templates` is the folder of the scaffold's templates. Throws std::runtime_error saying what is wrong and
/// what to do: the folder holds something else or another discipline, the check or one of its files is there already, a
/// place where something must be entered is not marked, a file cannot be read.
ScaffoldPlan scaffold_plan(const ScaffoldNames& names, const fs::path& folder, const fs::path& templates) {
  return Planner(names, folder, templates).plan();
}

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
    write_all_or_none(plan.files);
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
