// The commands: each declares its options on `app` and, when it is the one given, leaves its exit status in `status`.
#pragma once

namespace CLI {
class App;
}

namespace panel_dossier {

void add_init_command(CLI::App& app, int& status);
void add_build_command(CLI::App& app, int& status);
void add_assemble_command(CLI::App& app, int& status);
void add_check_command(CLI::App& app, int& status);
void add_trace_command(CLI::App& app, int& status);
void add_compare_command(CLI::App& app, int& status);
void add_verify_command(CLI::App& app, int& status);
void add_sign_command(CLI::App& app, int& status);
void add_extend_command(CLI::App& app, int& status);
void add_plugins_command(CLI::App& app, int& status);
void add_scaffold_command(CLI::App& app, int& status);

}  // namespace panel_dossier
