#include "core/intake/tables/workbook.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>

#include "core/api/support/text_encoding.h"
#include "core/intake/graph/element.h"

namespace panel_dossier {

namespace {

constexpr const char* kSaveWorkbook = "save the workbook again as .xlsx";

template <typename Number>
std::optional<Number> whole(std::optional<std::string_view> text) {
  Number value = 0;
  if (!text) return std::nullopt;
  const auto [end, status] = std::from_chars(text->data(), text->data() + text->size(), value);
  if (status != std::errc() || end != text->data() + text->size()) return std::nullopt;
  return value;
}

/// `xl/workbook.xml` and `worksheets/sheet1.xml` -> `xl/worksheets/sheet1.xml`; a target may begin at the root.
std::string part_of_target(const std::string& folder, std::string_view target) {
  if (target.starts_with('/')) return std::string(target.substr(1));
  return folder + std::string(target);
}

std::string folder_of_part(const std::string& part) {
  const std::size_t slash = part.rfind('/');
  return slash == std::string::npos ? std::string() : part.substr(0, slash + 1);
}

/// What the relationships of a part lead to, by id and, as `type:` and its last word, by type.
std::map<std::string, std::string> relationships(const Element& root, const std::string& folder) {
  std::map<std::string, std::string> targets;
  for (Element item = root.first_child(); item; item = item.next_sibling()) {
    const auto id = item.attribute("Id");
    const auto target = item.attribute("Target");
    const std::string type(item.attribute("Type").value_or(""));
    if (!id || !target) continue;
    const std::string part = part_of_target(folder, *target);
    targets.emplace(*id, part);
    targets.emplace("type:" + type.substr(type.rfind('/') + 1), part);
  }
  return targets;
}

/// A part as a tree: it owns its text.
class XmlPart {
 public:
  XmlPart(const WorkbookPackage& package, const std::string& name, Reporter& report) {
    auto bytes = package.part(name);
    if (!bytes) return;
    text_ = std::move(*bytes);
    if (encoding_fault(text_) || !document_.parse_in_place(text_)) {
      report.file_error(0, 0, "'" + name + "' of the workbook is no XML in UTF-8", kSaveWorkbook);
      return;
    }
    root_ = document_.root();
  }
  const Element& root() const { return root_; }

 private:
  std::string text_;
  XmlDocument document_;
  Element root_;
};

}  // namespace

Workbook::Workbook(std::string_view bytes, Reporter& report) : report_(report), package_(bytes, report) {
  if (!package_.is_open()) return;
  const XmlPart root(package_, "_rels/.rels", report_);
  const auto targets = relationships(root.root(), "");
  const auto found = targets.find("type:officeDocument");
  if (found != targets.end()) {
    read_index(found->second);
  } else if (!report_.has_errors()) {
    report_.file_error(0, 0, "the archive holds no workbook", kSaveWorkbook);
  }
}

void Workbook::read_index(const std::string& workbook_part) {
  const std::string folder = folder_of_part(workbook_part);
  const XmlPart book(package_, workbook_part, report_);
  const std::string relations = folder + "_rels/" + workbook_part.substr(folder.size()) + ".rels";
  const XmlPart relation_part(package_, relations, report_);
  const auto targets = relationships(relation_part.root(), folder);
  const auto is_1904 = book.root().child("workbookPr").attribute("date1904");
  if (is_1904 == "1" || is_1904 == "true") content_.dates = DateSystem::from_1904;
  const Element sheets = book.root().child("sheets");
  for (Element sheet = sheets.first_child(); sheet; sheet = sheet.next_sibling()) {
    const auto target = targets.find(std::string(sheet.attribute("id").value_or("")));
    // A sheet of a chart alone has no cells.
    if (target == targets.end() || target->second.find("worksheets/") == std::string::npos) continue;
    sheet_names_.emplace_back(sheet.attribute("name").value_or(""));
    sheet_parts_.push_back(target->second);
  }
  if (sheet_names_.empty() && !report_.has_errors()) {
    report_.file_error(0, 0, "the workbook has no sheet with cells", kSaveWorkbook);
  }
  if (const auto styles = targets.find("type:styles"); styles != targets.end()) styles_part_ = styles->second;
  if (const auto texts = targets.find("type:sharedStrings"); texts != targets.end()) texts_part_ = texts->second;
}

void Workbook::read_formats() {
  const XmlPart styles(package_, styles_part_, report_);
  std::map<std::uint32_t, NumberFormat> own;
  const Element codes = styles.root().child("numFmts");
  for (Element item = codes.first_child(); item; item = item.next_sibling()) {
    const auto id = whole<std::uint32_t>(item.attribute("numFmtId"));
    if (id) own[*id] = format_of_code(item.attribute("formatCode").value_or(""));
  }
  const Element cells = styles.root().child("cellXfs");
  for (Element item = cells.first_child(); item; item = item.next_sibling()) {
    const std::uint32_t id = whole<std::uint32_t>(item.attribute("numFmtId")).value_or(0);
    const auto found = own.find(id);
    content_.formats.push_back(found == own.end() ? built_in_format(id) : found->second);
  }
}

void Workbook::read_texts() {
  const XmlPart part(package_, texts_part_, report_);
  for (Element item = part.root().first_child(); item; item = item.next_sibling()) {
    if (item.name() == "si") content_.texts.push_back(rich_text(item));
  }
}

void Workbook::read(const std::string& sheet, TableGrid& grid) {
  if (!std::exchange(has_read_shared_, true)) {
    if (!styles_part_.empty()) read_formats();
    if (!texts_part_.empty()) read_texts();
  }
  const auto at = std::find(sheet_names_.begin(), sheet_names_.end(), sheet);
  const std::size_t index = static_cast<std::size_t>(at - sheet_names_.begin());
  const XmlPart part(package_, sheet_parts_[index], report_);
  if (part.root()) read_sheet(part.root(), content_, grid, report_);
}

}  // namespace panel_dossier
