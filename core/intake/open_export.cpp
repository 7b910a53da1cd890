#include "core/intake/open_export.h"

#include <optional>
#include <string>

#include "core/intake/document/export_form.h"
#include "core/intake/document/plain_xml.h"
#include "core/intake/document/xml_check.h"
#include "core/intake/document/xml_encoding.h"
#include "core/intake/document/zip_export.h"
#include "core/intake/graph/element.h"
#include "core/intake/step/step_check.h"
#include "core/intake/step/step_file.h"

namespace panel_dossier {

namespace {

/// What the forms have in common.
struct ExportOpening {
  const std::filesystem::path& schema_dir;
  Graph::Keep keep;
  Reporter& report;
  const GraphUse& use;
};

void report_unknown_root(const Element& root, Reporter& report) {
  const std::string uri(root.namespace_uri());
  report.error(root,
               "'" + std::string(root.name()) + "' in namespace '" + uri.substr(0, 100) +
                   "' is no ifcXML of IFC2x3, IFC4 or IFC4X3",
               "export ifcXML of one of these generations");
}

Generation open_xml(std::string_view bytes, const ExportOpening& opening) {
  Reporter& report = opening.report;
  const auto xml = Utf8Xml::of(bytes, report);
  if (!xml) return Generation::unknown;
  const std::string_view text = xml->text();
  std::string in_place;  // of a document that is not beyond doubt: its tree reaches into it
  XmlDocument document(plainly_sound_tree(text, opening.schema_dir));
  if (!document.root()) {
    if (!check_xml(text, opening.schema_dir, report)) return Generation::unknown;
    in_place = text;
    if (!document.parse_in_place(in_place)) {
      report.file_error(0, 0, "the XML cannot be read a second time", "this is a fault of the program: report it");
      return Generation::unknown;
    }
  }
  const Generation generation = generation_of(document.root());
  if (generation == Generation::unknown) {
    report_unknown_root(document.root(), report);
  } else {
    opening.use(Graph(document.root(), report, opening.keep), generation, text.size());
  }
  return generation;
}

Generation open_step(std::string_view text, const ExportOpening& opening) {
  Reporter& report = opening.report;
  report.set_lines(LineTable(text));
  StepFile file(text);
  if (!file.read(opening.schema_dir, report)) return Generation::unknown;
  const Generation generation = file.schema().generation();
  if (check_step(file, report)) opening.use(Graph(file, report, opening.keep), generation, text.size());
  return generation;
}

Generation open_form(std::string_view bytes, const ExportOpening& opening) {
  switch (form_of_export(bytes)) {
    case ExportForm::xml: return open_xml(bytes, opening);
    case ExportForm::step: return open_step(bytes, opening);
    case ExportForm::empty:
      opening.report.file_error(0, 0, "the file is empty", "export the project again");
      return Generation::unknown;
    case ExportForm::zip:
    case ExportForm::none: break;
  }
  opening.report.file_error(0, 0, "the file is neither ifcXML nor a STEP file, whatever its name says",
                            "export .ifcxml or .ifc, or pack one of them as .ifczip");
  return Generation::unknown;
}

}  // namespace

Generation open_export(std::string_view bytes, const std::filesystem::path& schema_dir, Graph::Keep keep,
                       Reporter& report, const GraphUse& use) {
  const ExportOpening opening{schema_dir, keep, report, use};
  if (form_of_export(bytes) != ExportForm::zip) return open_form(bytes, opening);
  const auto unpacked = unpack_export(bytes, report);
  return unpacked ? open_form(*unpacked, opening) : Generation::unknown;
}

}  // namespace panel_dossier
