// Small .xlsx workbooks, sound and faulty, made for tests.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/zip_bytes.h"

namespace panel_dossier::testing {

/// The parts of a workbook with the rows of its sheets as XML, in the order of the names. Cell styles: 1 a date
/// (built-in format 14), 2 a date by its own code, 3 a percentage, 4 a time of day. Shared texts: 0 `Oak`, 1 `Spruce`
/// of two runs.
class WorkbookBytes {
 public:
  std::map<std::string, std::string> sheets;  ///< name -> content of `sheetData`, and what follows it
  bool from_1904 = false;

  static std::string sheet_of(const std::string& rows, const std::string& after = {}) {
    return "<sheetData>" + rows + "</sheetData>" + after;
  }

  /// A row of texts.
  static std::string row(std::size_t number, const std::vector<std::string>& texts) {
    std::string row = "<row r=\"" + std::to_string(number) + "\">";
    for (const std::string& text : texts) row += "<c t=\"inlineStr\"><is><t>" + text + "</t></is></c>";
    return row + "</row>";
  }

  std::vector<std::pair<std::string, std::string>> parts() const {
    const std::string package = "http://schemas.openxmlformats.org/package/2006/relationships";
    const std::string office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const std::string main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    std::string list;
    std::string relations = "<Relationship Id=\"s\" Type=\"" + office + "/styles\" Target=\"styles.xml\"/>" +
                            "<Relationship Id=\"t\" Type=\"" + office +
                            "/sharedStrings\" Target=\"sharedStrings.xml\"/>";
    std::vector<std::pair<std::string, std::string>> parts;
    std::size_t number = 0;
    for (const auto& [name, content] : sheets) {
      const std::string id = std::to_string(++number);
      list += "<sheet name=\"" + name + "\" sheetId=\"" + id + "\" r:id=\"r" + id + "\"/>";
      relations += "<Relationship Id=\"r" + id + "\" Type=\"" + office + "/worksheet\" Target=\"worksheets/sheet" + id +
                   ".xml\"/>";
      parts.emplace_back("xl/worksheets/sheet" + id + ".xml",
                         "<worksheet xmlns=\"" + main + "\">" + content + "</worksheet>");
    }
    parts.emplace_back("_rels/.rels", "<Relationships xmlns=\"" + package + "\"><Relationship Id=\"b\" Type=\"" +
                                          office + "/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
    parts.emplace_back("xl/workbook.xml", "<workbook xmlns=\"" + main + "\" xmlns:r=\"" + office + "\">" +
                                              (from_1904 ? "<workbookPr date1904=\"1\"/>" : "") + "<sheets>" + list +
                                              "</sheets></workbook>");
    parts.emplace_back("xl/_rels/workbook.xml.rels",
                       "<Relationships xmlns=\"" + package + "\">" + relations + "</Relationships>");
    parts.emplace_back("xl/styles.xml",
                       "<styleSheet xmlns=\"" + main +
                           "\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"[$-407]d\\. mmmm yyyy\"/>"
                           "<numFmt numFmtId=\"165\" formatCode=\"hh:mm &quot;day&quot;\"/></numFmts><cellXfs>"
                           "<xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"9\"/>"
                           "<xf numFmtId=\"165\"/></cellXfs></styleSheet>");
    parts.emplace_back("xl/sharedStrings.xml", "<sst xmlns=\"" + main +
                                                   "\"><si><t>Oak</t></si><si><r><t>Spru</t></r><r><t>ce</t></r>"
                                                   "<rPh><t>x</t></rPh></si></sst>");
    return parts;
  }

  std::string bytes() const { return zip_bytes(parts()); }
};

}  // namespace panel_dossier::testing
