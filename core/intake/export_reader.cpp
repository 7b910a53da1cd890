#include "core/intake/export_reader.h"

#include <algorithm>
#include <utility>

#include "core/intake/document/input_file.h"
#include "core/intake/document/reporter.h"
#include "core/intake/document/xml_check.h"
#include "core/intake/graph/element.h"
#include "core/intake/graph/generation.h"
#include "core/intake/graph/graph.h"
#include "core/intake/identity_checks.h"
#include "core/intake/project_reader.h"

namespace panel_dossier {

namespace {

void report_unknown_root(const Element& root, Reporter& report) {
  const std::string uri(root.namespace_uri());
  report.error(root,
               "'" + std::string(root.name()) + "' in namespace '" + uri.substr(0, 100) +
                   "' is no ifcXML of IFC2x3, IFC4 or IFC4X3",
               "export ifcXML of one of these generations");
}

IntakeResult read(std::string text, Reporter& report, const IntakeOptions& options) {
  IntakeResult result;
  report.set_lines(LineTable(text));
  XmlDocument document;
  if (check_encoding(text, report) && check_xml(text, options.schema_dir, report)) {
    const std::size_t file_size = text.size();
    if (document.parse_in_place(text)) {
      const Generation generation = generation_of(document.root());
      result.schema_version = to_string(generation);
      if (generation == Generation::unknown) {
        report_unknown_root(document.root(), report);
      } else {
        const Graph graph(document.root(), report);
        check_identities(graph, report);
        result.skipped = graph.skipped();
        result.project = read_project(graph, report, options, file_size);
      }
    } else {
      report.file_error(0, 0, "the XML cannot be read a second time", "this is a fault of the program: report it");
    }
  }
  if (report.has_errors()) result.project.reset();
  result.diagnostics = report.take();
  return result;
}

}  // namespace

IntakeResult read_export(const std::filesystem::path& file, const IntakeOptions& options) {
  Reporter report(file.string());
  auto text = load_file(file, report);
  if (!text) {
    IntakeResult result;
    result.diagnostics = report.take();
    return result;
  }
  return read(std::move(*text), report, options);
}

IntakeResult read_export(std::string_view bytes, const std::string& display_name, const IntakeOptions& options) {
  Reporter report(display_name);
  return read(std::string(bytes), report, options);
}

}  // namespace panel_dossier
