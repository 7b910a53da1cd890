#include "core/cli/build/build_inputs.h"

#include <iostream>

#include "core/cli/build/project_plugins.h"
#include "core/cli/inputs.h"
#include "core/trace/record.h"

namespace panel_dossier {

void read_build_inputs(const BuildOptions& options, BuildInputs& read) {
  InputOptions input = options.input;
  input.plugin_folders = data_folders(read.plugins.plugins);
  input.today = options.time_utc.substr(0, options.time_utc.find('T'));
  input.as_exported = [&read](const Project& project) { read.hashes = data_hashes(project); };
  read.inputs = read_inputs(input);
  refuse_not_allowed(read.plugins, read.inputs.settings);
}

bool print_build_inputs(const BuildOptions& options, BuildInputs& read, const char* done) {
  read_build_inputs(options, read);
  print_diagnostics(read.inputs.diagnostics);
  if (!read.inputs.refused()) return true;
  std::cerr << "panel-dossier: error: the input is refused; nothing was " << done << '\n';
  return false;
}

}  // namespace panel_dossier
