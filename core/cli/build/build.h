// The nightly job: inputs -> findings -> outputs, all or nothing.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "core/cli/inputs.h"
#include "core/cli/terminal/locations.h"

namespace panel_dossier {

/// Where the signing key's password comes from. Never from the command line, where other users of the machine could
/// read it.
struct PasswordSource {
  std::optional<int> file_descriptor;
  std::string environment_variable;
};

struct BuildOptions {
  InputOptions input;
  std::filesystem::path out;
  PluginOptions plugins;
  std::filesystem::path font_dir = kDefaultFontDir;
  std::filesystem::path previous;  ///< output folder of the previous issue; empty: what stands in `out`
  std::filesystem::path sign_key;  ///< PKCS#12; empty: a demonstration key
  PasswordSource password;
  std::string time_utc;              ///< empty: the machine's clock
  int threads = 0;                   ///< 0: as many as the machine has
  bool labels = false;               ///< write labels.pdf too
  std::filesystem::path write_back;  ///< write the export with its results to this file too; empty: do not
};

/// Runs the whole job. Returns the exit status; throws std::runtime_error for what stops a build before it has begun.
int run_build(const BuildOptions& options);

}  // namespace panel_dossier
