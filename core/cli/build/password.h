// The signing key's password. Never from the command line, where other users of the machine could read it.
#pragma once

#include <optional>
#include <string>

namespace panel_dossier {

struct PasswordSource {
  std::optional<int> file_descriptor;
  std::string environment_variable;
};

/// The password without its final line break; empty when neither source is given. Throws std::runtime_error naming the
/// source that cannot be read.
std::string read_password(const PasswordSource& source);

}  // namespace panel_dossier
