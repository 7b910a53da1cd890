#include <CLI/CLI.hpp>
#include <csignal>
#include <exception>
#include <filesystem>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/api/support/text_encoding.h"
#include "core/cli/build/nights/clock.h"
#include "core/cli/build/output/signing_key.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/document/file_bytes.h"
#include "core/seal/revision/approval.h"
#include "core/seal/revision/document_stamp.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/time/time_stamper.h"
#include "core/seal/verify.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

struct AdditionOptions {
  fs::path dossier;
  fs::path out;
  fs::path schema_dir = default_schema_dir();
  SigningOptions signing;
  std::string role;
  std::string reason;
  std::vector<fs::path> proofs;
  std::string stamp_server;  ///< of the document's time stamp; empty: none is asked for
};

/// Nobody puts a name to what is no longer what its author signed. Throws std::runtime_error saying what does not hold.
void require_intact(const AdditionOptions& options) {
  const Verification verification = verify_dossier(options.dossier, options.schema_dir);
  if (!verification.volume.empty()) {
    throw std::runtime_error("'" + options.dossier.string() +
                             "' is a volume, whose hash its dossier names: sign "
                             "dossier.pdf, which then stands for all");
  }
  for (const VerificationStep& step : verification.steps) {
    if (step.holds) continue;
    throw std::runtime_error("'" + options.dossier.string() + "' is not intact, and is not signed: " + step.what +
                             ": " + step.detail);
  }
}

/// Reads and checks the dossier, adds to it and writes it elsewhere; nothing is written where anything fails.
template <typename Add>
int add_to_dossier(const AdditionOptions& options, const Add& add) {
  std::string bytes;
  try {
    require_intact(options);
    bytes = read_file(options.dossier);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << visible_text(error.what()) << "\nnothing was written\n";
    return exit_status::kInputRefused;
  }
  try {
    write_in_place(options.out, add(bytes), {options.dossier});
  } catch (const std::exception& error) {
    std::cerr << "panel-dossier: error: " << visible_text(error.what()) << "\nnothing was written\n";
    return exit_status::kIncomplete;
  }
  return exit_status::kClean;
}

int sign(const AdditionOptions& options) {
  // A time-stamp server that hangs up becomes an error of the question.
  std::signal(SIGPIPE, SIG_IGN);
  std::string done;
  const int status = add_to_dossier(options, [&](const std::string& bytes) {
    const std::string time_utc = time_now_utc();
    const auto signer = make_signer(options.signing, time_utc);
    if (const std::string warning = key_warning(options.signing); !warning.empty()) {
      std::cerr << "panel-dossier: warning: " << warning << '\n';
    }
    done = "signed as " + options.role + " by '" + signer->subject() + "', " + time_utc;
    return sign_again(bytes, *signer, options.role, options.reason, time_utc);
  });
  if (status == exit_status::kClean) std::cout << visible_text(done + ": " + options.out.string()) << '\n';
  return status;
}

int extend(const AdditionOptions& options) {
  // A time-stamp server that hangs up becomes an error of the question.
  std::signal(SIGPIPE, SIG_IGN);
  std::string done;
  const int status = add_to_dossier(options, [&](const std::string& bytes) {
    const auto server = options.stamp_server.empty() ? nullptr : time_stamp_server(options.stamp_server);
    if (options.proofs.empty()) {
      done = "stamped";
      return stamp_document(bytes, *server);
    }
    const KeptProofs proofs = read_proof_files(options.proofs);
    done = "kept: " + std::to_string(proofs.certificates.size()) + " certificates, " +
           std::to_string(proofs.revocation.lists.size()) + " revocation lists, " +
           std::to_string(proofs.revocation.responses.size()) + " OCSP responses";
    std::string kept = keep_proofs(bytes, proofs);
    if (server == nullptr) return kept;
    done += ", and stamped";
    return stamp_document(kept, *server);
  });
  if (status == exit_status::kClean) std::cout << visible_text(done + ": " + options.out.string()) << '\n';
  return status;
}

void add_file_options(CLI::App& command, AdditionOptions& options) {
  command.add_option("DOSSIER", options.dossier, "Signed dossier.pdf; it stays as it is")->required();
  command.add_option("--out", options.out, "File to write")->required();
  command.add_option("--schemas", options.schema_dir, "Folder of the XSD");
}

}  // namespace

void add_sign_command(CLI::App& app, int& status) {
  auto options = std::make_shared<AdditionOptions>();
  CLI::App* command = app.add_subcommand(
      "sign", "Add a signature to a signed dossier: of whoever checks it, and of whoever approves it");
  add_file_options(*command, *options);
  command->add_option("--role", options->role, "Role in which you sign, for example checker")->required();
  command->add_option("--reason", options->reason, "Reason, for example 'checked against the tender'");
  add_key_options(*command, options->signing)->required();
  command->footer(
      "The signature is an update behind what was signed before, of which no byte changes; the first page shows role, "
      "name, time and reason. Sign dossier.pdf in turn: each signature covers those before it. 'verify' lists all.\n"
      "Exit status: 0 done; 2 the dossier is not intact; 3 the key, the time-stamp server or the disk failed; 64 wrong "
      "usage. Nothing is written after 2 and 3.");
  command->callback([options, &status] { status = sign(*options); });
}

void add_extend_command(CLI::App& app, int& status) {
  auto options = std::make_shared<AdditionOptions>();
  CLI::App* command =
      app.add_subcommand("extend", "Keep in a signed dossier what its signatures will be judged by in later years");
  add_file_options(*command, *options);
  CLI::Option_group* what = command->add_option_group("what to add", "at least one of them");
  what->add_option("--keep", options->proofs,
                   "Files, or folders of them: certificates of issuers and time-stamp authorities, revocation lists "
                   "(PEM or DER), OCSP responses (DER)")
      ->allow_extra_args(false);
  what->add_option("--time-stamp-server", options->stamp_server,
                   "Address of a server (RFC 3161), http://HOST[:PORT][/PATH]: behind what is kept, a time stamp of "
                   "the whole dossier, which proves in later years that it all existed now")
      ->check(empty_value);
  what->require_option(1, 2);
  command->footer(
      "With both, a signature with a time stamp becomes one of PAdES baseline LTA. Extend a dossier again, with a time "
      "stamp of its day, before the certificate of the last one runs out or its digest becomes weak.\n"
      "Exit status: 0 done; 2 the dossier is not intact; 3 a file of --keep, the time-stamp server or the disk failed; "
      "64 wrong usage.");
  command->callback([options, &status] { status = extend(*options); });
}

}  // namespace panel_dossier
