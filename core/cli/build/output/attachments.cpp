#include "core/cli/build/output/attachments.h"

#include <algorithm>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// Of a table; IANA's for what ISO/IEC 29500 calls a workbook.
std::string media_type(const std::string& location) {
  return lower_case(location).ends_with(".xlsx") ? "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
                                                 : "text/csv";
}

/// `rates/2026.csv` -> `rates-2026.csv`: two tables may have one name in two folders.
std::string attachment_name(std::string location) {
  std::replace(location.begin(), location.end(), '/', '-');
  return location;
}

}  // namespace

std::vector<Attachment> attachments_of(const Inputs& inputs, const KeptExport& export_file,
                                       const std::string& export_name, const std::filesystem::path& results) {
  std::vector<Attachment> attachments{
      {"results.json", "application/json", "Every finding with its inputs, steps and clause", "Data", {}, results},
      {export_name,
       export_file.media_type(),
       "The export this dossier was made from",
       "Source",
       {},
       export_file.file()}};
  if (inputs.settings_bytes) {
    attachments.push_back({"settings.json", "application/json", "The project settings, source of every assumption",
                           "Source", *inputs.settings_bytes});
  }
  attachments.push_back({std::string(kPropertyListAttachment), "text/csv",
                         "The properties that were read of the export, with their measures and units", "Supplement",
                         inputs.property_list});
  for (const SettingsFile& file : inputs.settings_files) {
    attachments.push_back(
        {attachment_name(file.location), media_type(file.location), file.description, "Source", file.bytes});
  }
  return attachments;
}

}  // namespace panel_dossier
