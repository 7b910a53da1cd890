#include "core/cli/build/build_inputs.h"

#include <algorithm>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <iostream>
#include <string>
#include <utility>

#include "core/cli/build/project_plugins.h"
#include "core/cli/inputs.h"
#include "core/intake/document/file_bytes.h"
#include "core/trace/record.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

std::string own_guidance_folder(const Settings& settings) {
  const auto folder = settings.text("guidance.folder");
  return folder ? folder->value : std::string();
}

/// The practice's tables, hashed and attached like all that the settings name. What is wrong with them refuses the
/// input.
void add_own_guidance(const BuildOptions& options, BuildInputs& read) {
  const std::string name = own_guidance_folder(read.inputs.settings);
  if (name.empty()) return;
  const fs::path& file = options.input.settings_file;
  const fs::path base = (file.empty() ? fs::absolute(options.input.export_file) : fs::absolute(file)).parent_path();
  const fs::path folder = fs::weakly_canonical(base / name);
  const auto refuse = [&](const std::string& where, std::size_t line, const std::string& what) {
    Diagnostic fault;
    fault.file = where;
    fault.line = static_cast<std::uint32_t>(line);
    fault.message = what;
    read.inputs.diagnostics.push_back(std::move(fault));
  };
  const fs::path from_base = folder.lexically_relative(fs::weakly_canonical(base));
  if (from_base.empty() || *from_base.begin() == ".." || !fs::is_directory(folder)) {
    refuse("settings", 0, "guidance.folder '" + name + "' is no folder beside the settings");
    return;
  }
  try {
    put_over(read.guidance, read_guidance_folder(folder));
    std::vector<fs::path> tables;
    for (const auto& entry : fs::directory_iterator(folder)) {
      if (entry.path().extension() == ".csv") tables.push_back(entry.path());
    }
    std::sort(tables.begin(), tables.end());
    for (const fs::path& table : tables) {
      read.inputs.settings_files.push_back(
          {(from_base / table.filename()).string(), read_file(table), "the practice's sentences of guidance"});
    }
  } catch (const GuidanceFault& fault) {
    refuse(fault.file(), fault.line(), fault.message());
  } catch (const std::exception& error) {
    refuse("settings", 0, std::string("guidance.folder: ") + error.what());
  }
}

}  // namespace

void read_build_inputs(const BuildOptions& options, BuildInputs& read) {
  InputOptions input = options.input;
  input.plugin_folders = data_folders(read.plugins.plugins);
  input.today = options.time_utc.substr(0, options.time_utc.find('T'));
  input.as_exported = [&read](const Project& project) { read.hashes = data_hashes(project); };
  read.inputs = read_inputs(input);
  refuse_not_allowed(read.plugins, read.inputs.settings);
  read.guidance = read_guidance_folder(options.guidance_dir);
  for (const LoadedPlugin& plugin : read.plugins.plugins) put_over(read.guidance.rows, plugin.guidance);
  add_own_guidance(options, read);
}

bool print_build_inputs(const BuildOptions& options, BuildInputs& read, const char* done) {
  read_build_inputs(options, read);
  print_diagnostics(read.inputs.diagnostics);
  if (!read.inputs.refused()) return true;
  std::cerr << "panel-dossier: error: the input is refused; nothing was " << done << '\n';
  return false;
}

}  // namespace panel_dossier
