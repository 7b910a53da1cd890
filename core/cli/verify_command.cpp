#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

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
  TrustSources trust;
  std::string panel;
  bool json = false;
};

const char* word_of(Answer answer) {
  switch (answer) {
    case Answer::holds: return "holds";
    case Answer::open: return "open";
    case Answer::fails: return "fails";
  }
  return "open";
}

/// `holds  `, `OPEN   `, `FAILS  `: what stands at the head of a line.
const char* mark_of(Answer answer) {
  switch (answer) {
    case Answer::holds: return "holds  ";
    case Answer::open: return "OPEN   ";
    case Answer::fails: return "FAILS  ";
  }
  return "OPEN   ";
}

int status_of(Answer answer) {
  switch (answer) {
    case Answer::holds: return exit_status::kClean;
    case Answer::open: return exit_status::kOpen;
    case Answer::fails: return exit_status::kVerdictFails;
  }
  return exit_status::kVerdictFails;
}

void print_judgement(const char* question, const Judgement& judgement) {
  std::cout << "  " << mark_of(judgement.answer) << question << ": " << visible_text(judgement.words) << '\n';
}

void print_signatures(const Verification& verification) {
  std::size_t number = 0;
  for (const VerifiedSignature& signature : verification.signatures) {
    std::cout << "signature " << ++number << ", " << visible_text(signature.role) << ": '"
              << visible_text(signature.signer) << "', " << signature.form << ", dated " << signature.claimed_time_utc
              << (signature.reason.empty() ? "" : ", reason '" + visible_text(signature.reason) + "'")
              << "\n  SHA-256 of the certificate " << signature.fingerprint << '\n';
    print_judgement("signer trusted", signature.trust);
    print_judgement("time of signing", signature.time);
    print_judgement("certificate not revoked", signature.revocation);
  }
  number = 0;
  for (const VerifiedTimeStamp& stamp : verification.time_stamps) {
    std::cout << "time stamp " << ++number << " of the dossier: " << stamp.time_utc << " by '"
              << visible_text(stamp.authority) << "'\n";
    print_judgement("authority trusted", stamp.trust);
  }
  std::cout << mark_of(verification.changes.answer)
            << "changes after signing: " << visible_text(verification.changes.words) << '\n';
}

std::string conclusion(const Verification& verification) {
  const std::string what = verification.volume.empty() ? "the dossier" : "the volume";
  if (!verification.holds()) return what + " is NOT intact; do not rely on it";
  switch (verification.answer()) {
    case Answer::holds: return what + " is intact, and signed by whom you trust";
    case Answer::open:
      return what +
             " was not changed after signing, but what is marked OPEN above is not settled; settle it before "
             "you rely on it";
    case Answer::fails: break;
  }
  return what + " is NOT to be relied on: see what is marked FAILS above";
}

void print_words(const Verification& verification) {
  for (const VerificationStep& step : verification.steps) {
    std::cout << mark_of(step.holds ? Answer::holds : Answer::fails) << step.what;
    if (!step.detail.empty()) std::cout << ": " << visible_text(step.detail);
    std::cout << '\n';
  }
  print_signatures(verification);
  if (verification.incomplete) {
    std::cout << "OPEN   the build is incomplete: a plugin or a file failed, and what it would have said is missing\n";
  }
  if (!verification.signatures.empty() && !verification.for_issue) {
    std::cout << "the dossier is not signed for issue: its key is a demonstration key\n";
  }
  if (!verification.volume.empty()) {
    std::cout << "this is a volume of a dossier, '" << visible_text(verification.volume)
              << "': verify dossier.pdf beside it, which names its hash and holds the data behind it\n";
  }
  std::cout << conclusion(verification) << '\n';
}

using Json = nlohmann::ordered_json;

Json json_of(const Judgement& judgement) {
  return {{"answer", word_of(judgement.answer)}, {"words", judgement.words}};
}

Json json_of(const VerifiedSignature& signature) {
  return {{"role", signature.role},
          {"reason", signature.reason},
          {"signer", signature.signer},
          {"certificate_sha256", signature.fingerprint},
          {"form", signature.form},
          {"claimed_time", signature.claimed_time_utc},
          {"proven_time", signature.proven_time_utc.empty() ? Json() : Json(signature.proven_time_utc)},
          {"trust", json_of(signature.trust)},
          {"time", json_of(signature.time)},
          {"revocation", json_of(signature.revocation)}};
}

void print_json(const Verification& verification) {
  Json steps = Json::array();
  for (const VerificationStep& step : verification.steps) {
    steps.push_back({{"what", step.what}, {"holds", step.holds}, {"detail", step.detail}});
  }
  Json signatures = Json::array();
  for (const VerifiedSignature& signature : verification.signatures) signatures.push_back(json_of(signature));
  Json time_stamps = Json::array();
  for (const VerifiedTimeStamp& stamp : verification.time_stamps) {
    time_stamps.push_back({{"time", stamp.time_utc}, {"authority", stamp.authority}, {"trust", json_of(stamp.trust)}});
  }
  const Json text{{"format", "panel-dossier-verification"},
                  {"version", 1},
                  {"answer", word_of(verification.answer())},
                  {"integrity", verification.holds() ? "holds" : "fails"},
                  {"for_issue", verification.for_issue},
                  {"incomplete", verification.incomplete},
                  {"volume", verification.volume.empty() ? Json() : Json(verification.volume)},
                  {"signatures", std::move(signatures)},
                  {"time_stamps", std::move(time_stamps)},
                  {"changes", json_of(verification.changes)},
                  {"steps", std::move(steps)}};
  std::cout << text.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
}

int verify(const VerifyOptions& options) {
  const Verification verification = verify_dossier(options.dossier, options.schema_dir, options.trust, options.panel);
  if (options.json) {
    print_json(verification);
  } else {
    print_words(verification);
  }
  return status_of(verification.answer());
}

}  // namespace

void add_verify_command(CLI::App& app, int& status) {
  auto options = std::make_shared<VerifyOptions>();
  CLI::App* command = app.add_subcommand(
      "verify",
      "Recompute signatures, attachments and hash tree of a dossier from the PDF alone, and say who signed it");
  command->add_option("DOSSIER", options->dossier, "Signed dossier")->required();
  command
      ->add_option("--trust", options->trust.files,
                   "PEM file, or folder of them, with certificates that you know by another way than the dossier "
                   "(the signatory's, its issuer's, the time-stamp authority's) and revocation lists")
      ->allow_extra_args(false);
  command
      ->add_option("--fingerprint", options->trust.fingerprints,
                   "SHA-256 of a signatory's certificate that you know by another way")
      ->allow_extra_args(false);
  command->add_option("--at", options->trust.time_utc,
                      "Judge as of this time, for example 2026-11-25T02:00:00Z, instead of the clock");
  command->add_option(
      "--panel", options->panel,
      "Prove one panel by itself, by mark or GlobalId: its data and findings, the path of hashes to the "
      "signed root, its pages");
  command->add_flag("--json", options->json, "Print the answers as schemas/verification.schema.json says");
  command->add_option("--schemas", options->schema_dir, "Folder of the XSD");
  command->footer(
      "Four questions, each answered by itself: was anything changed; who signed, and does that lead to somebody whom "
      "you named; when, and is that claimed or proven; what was added after signing.\n"
      "Exit status: 0 all answered well; 1 something fails: changed, signed by another, revoked, too weak a key; 4 "
      "nothing fails, but something is open: you named nobody, the certificate has expired and no time stamp proves "
      "the time, the build is incomplete; 2 the file or a file of --trust cannot be read; 64 wrong usage.");
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return verify(*options); }); });
}

}  // namespace panel_dossier
