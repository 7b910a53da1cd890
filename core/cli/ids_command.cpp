#include "core/cli/ids_command.h"

#include <iostream>
#include <optional>
#include <stdexcept>
#include <string>

#include "core/api/support/text_encoding.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/exit_status.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/ids/ids_check.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

std::optional<IdsFile> read_requirements(const std::filesystem::path& file, const std::filesystem::path& schema_dir) {
  Reporter report(file.string());
  std::optional<IdsFile> ids = read_ids(read_file(file), schema_dir, report);
  if (ids) check_requirements(*ids, schema_dir, report);
  const Diagnostics diagnostics = report.take();
  print_diagnostics(diagnostics);
  if (has_errors(diagnostics)) return std::nullopt;
  return ids;
}

/// Throws std::runtime_error when there is such a file and no check wrote it.
void require_earlier_report(const std::filesystem::path& file) {
  const std::string head = ids_report_csv({});
  if (!std::filesystem::exists(file) || read_file(file).starts_with(head)) return;
  throw std::runtime_error("'" + file.string() + "' exists and is no report of such a check; write to another file");
}

}  // namespace

int check_against_ids(const IdsOptions& options, const std::filesystem::path& export_file,
                      const std::filesystem::path& schema_dir) {
  if (!options.report_file.empty()) require_earlier_report(options.report_file);
  const std::optional<IdsFile> ids = read_requirements(options.ids_file, schema_dir);
  if (!ids) {
    std::cerr << "panel-dossier: error: the file of requirements is refused; nothing was checked\n";
    return exit_status::kInputRefused;
  }
  Reporter report(export_file.string());
  const IdsReport result = hold_against(*ids, read_file(export_file), schema_dir, report);
  const Diagnostics diagnostics = report.take();
  print_diagnostics(diagnostics);
  if (has_errors(diagnostics)) {
    std::cerr << "panel-dossier: error: the export is refused; nothing was checked\n";
    return exit_status::kInputRefused;
  }
  std::cout << visible_lines(ids_report_text(result));
  if (!options.report_file.empty()) {
    write_in_place(options.report_file, ids_report_csv(result), {export_file, options.ids_file});
  }
  return result.holds() ? exit_status::kClean : exit_status::kVerdictFails;
}

}  // namespace panel_dossier
