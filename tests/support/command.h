// Runs a shell command and keeps what it said.
#pragma once

#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>

#include "core/api/testing/temporary_folder.h"

namespace panel_dossier {

struct CommandResult {
  int status = -1;  ///< exit status, or 128 + signal
  std::string out;
  std::string err;
};

inline std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

inline CommandResult run_command(const std::string& command) {
  const testing::TemporaryFolder folder;
  const auto out = folder.path() / "out";
  const auto err = folder.path() / "err";
  const std::string line = "( " + command + " ) >'" + out.string() + "' 2>'" + err.string() + "' </dev/null";
  const int raw = std::system(line.c_str());
  CommandResult result;
  result.status = WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw);
  result.out = text_of(out);
  result.err = text_of(err);
  return result;
}

}  // namespace panel_dossier
