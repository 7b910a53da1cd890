#include "core/trace/write_back/write_back.h"

#include <unistd.h>

#include <optional>
#include <stdexcept>
#include <string>
#include <system_error>

#include "core/intake/document/export_form.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/document/xml_encoding.h"
#include "core/intake/document/zip_export.h"
#include "core/intake/graph/property_reader.h"

namespace panel_dossier {

namespace fs = std::filesystem;

std::string export_with_results(std::string_view bytes, const std::vector<PanelResults>& results) {
  Reporter report("the export");
  std::optional<std::string> unpacked;
  if (form_of_export(bytes) == ExportForm::zip) unpacked = unpack_export(bytes, report);
  const std::string_view text = unpacked ? std::string_view(*unpacked) : bytes;
  if (form_of_export(text) == ExportForm::step) return step_with_results(text, results);
  const auto xml = Utf8Xml::of(text, report);
  if (!xml) throw std::runtime_error("the export cannot be read a second time");
  return xml_with_results(xml->text(), results);
}

void require_earlier_results(const fs::path& file) {
  if (!fs::exists(file)) return;
  const std::string bytes = read_file(file);
  // A settings or library file may name the set as well.
  const ExportForm form = form_of_export(bytes);
  const bool is_export = form == ExportForm::xml || form == ExportForm::step;
  if (is_export && bytes.find(kResultsSet) != std::string::npos) return;
  throw std::runtime_error("'" + file.string() + "' exists and holds no results of a build; write to another file");
}

void write_in_place(const fs::path& file, std::string_view text, const std::vector<fs::path>& inputs) {
  std::error_code ignored;
  for (const fs::path& input : inputs) {
    if (fs::equivalent(file, input, ignored)) {
      throw std::runtime_error("'" + file.string() + "' is an input of this build; write to another file");
    }
  }
  const fs::file_status status = fs::symlink_status(file, ignored);
  if (fs::exists(status) && !fs::is_regular_file(status)) {
    throw std::runtime_error("'" + file.string() + "' exists and is no file; write to another");
  }
  // Another run may write the same file at the same time: each has its own beside it.
  const fs::path beside = fs::path(file.string() + "." + std::to_string(::getpid()) + ".writing");
  try {
    write_file(beside, text);
    fs::rename(beside, file);
  } catch (const std::exception&) {
    fs::remove(beside, ignored);
    throw;
  }
}

}  // namespace panel_dossier
