#include "core/dossier/parts/panel/labels.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/pdf_document.h"
#include "core/dossier/layout/text_layout.h"
#include "core/dossier/parts/panel/fire_class.h"

namespace panel_dossier {

namespace {

/// Keeps the text inside when the sheet is fed a little askew.
constexpr double kLabelPadding = 4.0 * kPointsPerMillimetre;
constexpr double kLabelCodeSize = 26.0 * kPointsPerMillimetre;
constexpr double kPanelCode = 44.0 * kPointsPerMillimetre;

constexpr TextStyle kLabelMark{Face::bold, 13.0, 14.5, kInk};
constexpr TextStyle kLabelLine{Face::regular, 7.0, 8.7, kInk};
constexpr TextStyle kPanelMark{Face::bold, 34.0, 38.0, kInk};
constexpr TextStyle kPanelLine{Face::regular, 12.0, 15.0, kInk};

const LabelForm& form_of(const std::string& name) {
  const auto found = std::ranges::find(label_forms(), name, &LabelForm::name);
  if (found == label_forms().end()) throw std::out_of_range("there is no sheet of labels '" + name + "'");
  return *found;
}

/// The places of labels on sheet after sheet.
class LabelSheets {
 public:
  LabelSheets(PdfDocument& pdf, const LabelForm& form) : pdf_(pdf), form_(form) {}

  /// The next label without its padding, on the sheet `page()`.
  Rect next() {
    const std::size_t place = count_++ % (form_.across * form_.down);
    if (place == 0) page_ = pdf_.add_page();
    const double width = form_.width_mm * kPointsPerMillimetre;
    const double height = form_.height_mm * kPointsPerMillimetre;
    const std::size_t row = place / form_.across;
    const double top = grid::kPageHeight - (grid::kPageHeight - static_cast<double>(form_.down) * height) / 2.0 -
                       static_cast<double>(row) * height;
    const double left = static_cast<double>(place % form_.across) * width;
    return {left + kLabelPadding, top - height + kLabelPadding, left + width - kLabelPadding, top - kLabelPadding};
  }

  std::size_t page() const { return page_; }
  std::size_t count() const { return count_; }

 private:
  PdfDocument& pdf_;
  LabelForm form_;
  std::size_t count_ = 0;
  std::size_t page_ = 0;
};

struct Label {
  std::string panel;
  std::string global_id;
  std::string part;
  std::vector<std::string> lines;  ///< at most five; empty ones are left out
};

/// The cell of the column of that name; nothing when the table has none.
Value cell(const Table& table, const std::vector<Value>& row, std::string_view name) {
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].name == name) return row[i];
  }
  return {};
}

std::string text_of(const Value& value) {
  const std::string* text = std::get_if<std::string>(&value);
  return text == nullptr ? std::string() : *text;
}

double number_of(const Value& value) {
  const double* number = std::get_if<double>(&value);
  return number == nullptr ? 0.0 : *number;
}

/// Empty when the panel has no batch. The batch belongs to the erection, as equal panels share a cutting list.
std::string batch_of(const BuildSummary& build, const PanelSummary& panel) {
  const RecordedFinding* erection = finding_of_role(build, panel.findings, role::kErection);
  if (erection == nullptr) return {};
  const std::vector<NamedValue>& values = erection->derivation->values;
  const auto found =
      std::find_if(values.begin(), values.end(), [](const NamedValue& value) { return value.id == "batch"; });
  return found == values.end() ? std::string() : "batch " + text_of(found->value);
}

std::string size_of(const Table& table, const std::vector<Value>& row) {
  constexpr double kMetresPerMillimetre = 1.0e-3;
  std::string size;
  for (const char* name : {"thickness", "width", "length"}) {
    size += (size.empty() ? "" : " × ") + format_millimetres(number_of(cell(table, row, name)) * kMetresPerMillimetre);
  }
  return size + " mm";
}

/// What is cut besides the size: `ends 45° and 90°`, `holes 20 mm at 300`. Empty for a plain rectangle.
std::string shape_of(const Table& table, const std::vector<Value>& row) {
  constexpr std::string_view kPlain = "rectangular";
  constexpr std::string_view kPlainWith = "rectangular, ";
  const std::string shape = text_of(cell(table, row, "shape"));
  if (shape == kPlain) return {};
  return shape.starts_with(kPlainWith) ? shape.substr(kPlainWith.size()) : shape;
}

class LabelWriter {
 public:
  LabelWriter(PdfDocument& pdf, LabelSheets& sheets) : pdf_(pdf), sheets_(sheets) {}

  void add(const Label& label) {
    area_ = sheets_.next();
    draw_qr_code(pdf_, sheets_.page(), {area_.right - kLabelCodeSize, area_.top - kLabelCodeSize}, kLabelCodeSize,
                 part_code(label.global_id, label.part));
    double y = line(area_.top, label.panel, kLabelMark);
    y = line(y, label.part, kLabelMark);
    for (const std::string& text : broken(label.lines)) y = line(y, text, kLabelLine);
  }

 private:
  PdfDocument& pdf_;
  LabelSheets& sheets_;
  Rect area_;

  double text_width() const { return area_.width() - kLabelCodeSize; }

  Measure measure_in(const TextStyle& style) const {
    return [this, style](std::string_view piece) { return pdf_.text_width(piece, style.face, style.size); };
  }

  /// The first texts that need a second line get it while there is room: the grade stands at the end of a material.
  std::vector<std::string> broken(const std::vector<std::string>& texts) const {
    const auto filled =
        static_cast<std::size_t>(std::ranges::count_if(texts, [](const std::string& text) { return !text.empty(); }));
    const auto room = static_cast<std::size_t>((area_.height() + kLabelLine.leading / 2.0 - 2.0 * kLabelMark.leading) /
                                               kLabelLine.leading);
    std::size_t spare = room - std::min(room, filled);
    std::vector<std::string> lines;
    for (const std::string& text : texts) {
      if (text.empty()) continue;
      const std::string first = wrap(text, text_width(), measure_in(kLabelLine)).front();
      if (first.size() == text.size() || spare == 0) {
        lines.push_back(text);
        continue;
      }
      --spare;
      lines.push_back(first);
      lines.push_back(text.substr(text.find_first_not_of(' ', first.size())));
    }
    return lines;
  }

  double line(double top, const std::string& text, const TextStyle& style) {
    pdf_.text(sheets_.page(), {area_.left, top - style.size}, shorten(text, text_width(), measure_in(style)), style);
    return top - style.leading;
  }
};

void add_labels(LabelWriter& writer, const BuildSummary& build, const PanelSummary& panel, const Table& table,
                bool insulation) {
  const std::string batch = batch_of(build, panel);
  for (const std::vector<Value>& row : table.rows) {
    if (!insulation && text_of(cell(table, row, "kind")) == to_string(PartKind::insulation)) continue;
    constexpr double kMostPieces = 10000.0;  // of one kind in one panel; more is a slip that would fill the disk
    const auto pieces = static_cast<std::size_t>(std::clamp(number_of(cell(table, row, "count")), 0.0, kMostPieces));
    for (std::size_t piece = 1; piece <= pieces; ++piece) {
      writer.add({panel.mark,
                  panel.global_id,
                  text_of(cell(table, row, "part mark")),
                  {text_of(cell(table, row, "kind")) + ", " + std::to_string(piece) + " of " + std::to_string(pieces),
                   text_of(cell(table, row, "material")), size_of(table, row), shape_of(table, row), batch}});
    }
  }
}

/// `mass 478.1 kg`; empty where no finding has a number for it.
std::string figure_of(const BuildSummary& build, const PanelSummary& panel, std::string_view role, const char* name) {
  const RecordedFinding* finding = finding_of_role(build, panel.findings, role);
  if (finding == nullptr || std::holds_alternative<std::monostate>(finding->value)) return {};
  return name + format_value(finding->value, finding->unit, finding->derivation->decimals);
}

/// Only what is proved: a label is read where nobody has the dossier at hand.
std::string fire_class_line(const BuildSummary& build, const PanelSummary& panel) {
  const FireClass shown = fire_class_of(build, panel);
  return shown.is_proved() ? "fire resistance " + shown.in_words() : std::string();
}

void add_panel_label(PdfDocument& pdf, LabelSheets& sheets, const BuildSummary& build, const PanelSummary& panel) {
  const Rect area = sheets.next();
  const auto measure = [&pdf](const TextStyle& style) {
    return [&pdf, style](std::string_view piece) { return pdf.text_width(piece, style.face, style.size); };
  };
  draw_qr_code(pdf, sheets.page(), {area.right - kPanelCode, area.bottom}, kPanelCode, panel_code(panel.global_id));
  double y = area.top - kPanelMark.size;
  pdf.text(sheets.page(), {area.left, y}, shorten(panel.mark, area.width(), measure(kPanelMark)), kPanelMark);
  y -= kPanelMark.leading - kPanelMark.size + kPanelLine.size;
  for (const std::string& text :
       {panel.type.empty() ? std::string() : "type " + panel.type, panel.storey,
        figure_of(build, panel, role::kMass, "mass "), figure_of(build, panel, role::kHookLoad, "on the hook "),
        fire_class_line(build, panel), batch_of(build, panel)}) {
    if (text.empty()) continue;
    pdf.text(sheets.page(), {area.left, y}, shorten(text, area.width() - kPanelCode, measure(kPanelLine)), kPanelLine);
    y -= kPanelLine.leading;
  }
}

}  // namespace

const std::vector<LabelForm>& label_forms() {
  static const std::vector<LabelForm> forms{{"3x8", 3, 8, 70.0, 37.0},
                                            {"3x7", 3, 7, 70.0, 42.3},
                                            {"2x8", 2, 8, 105.0, 37.0},
                                            {"2x7", 2, 7, 105.0, 42.3},
                                            {"2x4", 2, 4, 105.0, 74.0}};
  return forms;
}

std::string panel_code(const std::string& global_id) {
  return "panel-dossier:" + global_id;
}

std::string part_code(const std::string& global_id, const std::string& part_mark) {
  return panel_code(global_id) + ":" + part_mark;
}

std::size_t write_labels(const ResultsDocument& results, const DossierFonts& fonts, const std::filesystem::path& file,
                         const LabelChoice& choice) {
  PdfDocument pdf(fonts);
  pdf.information("Part labels: " + results.project.name, "Labels of the parts of timber cassette panels",
                  results.build.time_utc);
  LabelSheets sheets(pdf, form_of(choice.form));
  LabelWriter writer(pdf, sheets);
  for (const PanelSummary& panel : results.panels) {
    const RecordedFinding* list = finding_of_role(results.build, panel.findings, role::kCuttingList);
    if (list == nullptr) continue;
    const Finding cutting_list = whole_finding(*list);
    const Table* pieces = find_table(cutting_list, "pieces");
    if (pieces != nullptr) add_labels(writer, results.build, panel, *pieces, choice.insulation);
  }
  if (sheets.count() > 0) pdf.save(file);
  return sheets.count();
}

std::size_t write_panel_labels(const ResultsDocument& results, const DossierFonts& fonts,
                               const std::filesystem::path& file) {
  PdfDocument pdf(fonts);
  pdf.information("Panel labels: " + results.project.name, "Labels of timber cassette panels", results.build.time_utc);
  LabelSheets sheets(pdf, form_of("2x4"));
  for (const PanelSummary& panel : results.panels) add_panel_label(pdf, sheets, results.build, panel);
  if (sheets.count() > 0) pdf.save(file);
  return sheets.count();
}

}  // namespace panel_dossier
