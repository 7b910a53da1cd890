#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "core/api/support/text_encoding.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/seal/verify.h"

namespace panel_dossier {

namespace {

struct VerifyOptions {
  std::filesystem::path dossier;
  std::filesystem::path schema_dir = default_schema_dir();
};

int verify(const VerifyOptions& options) {
  const Verification verification = verify_dossier(options.dossier, options.schema_dir);
  for (const VerificationStep& step : verification.steps) {
    std::cout << (step.holds ? "holds  " : "FAILS  ") << step.what;
    if (!step.detail.empty()) std::cout << ": " << visible_text(step.detail);
    std::cout << '\n';
  }
  if (verification.holds() && !verification.for_issue) {
    std::cout << "the dossier is not signed for issue: its key is a demonstration key\n";
  }
  if (!verification.volume.empty()) {
    std::cout << "this is a volume of a dossier, '" << visible_text(verification.volume)
              << "': verify dossier.pdf beside it, which names its hash and holds the data behind it\n";
  }
  const char* what = verification.volume.empty() ? "the dossier" : "the volume";
  std::cout << what << (verification.holds() ? " is intact\n" : " is NOT intact; do not rely on it\n");
  return verification.holds() ? exit_status::kClean : exit_status::kVerdictFails;
}

}  // namespace

void add_verify_command(CLI::App& app, int& status) {
  auto options = std::make_shared<VerifyOptions>();
  CLI::App* command =
      app.add_subcommand("verify", "Recompute signature, attachments and hash tree of a dossier from the PDF alone");
  command->add_option("DOSSIER", options->dossier, "Signed dossier")->required();
  command->add_option("--schemas", options->schema_dir, "Folder of the XSD");
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return verify(*options); }); });
}

}  // namespace panel_dossier
