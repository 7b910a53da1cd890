#include "core/dossier/parts/labels.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/layout/pdf_document.h"
#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kAcross = 3;
constexpr std::size_t kDown = 8;
constexpr double kWidth = 70.0 * kPointsPerMillimetre;
constexpr double kHeight = 37.0 * kPointsPerMillimetre;
/// The eight rows are a millimetre shorter than the sheet.
constexpr double kTop = grid::kPageHeight - (grid::kPageHeight - kDown * kHeight) / 2.0;
/// Keeps the text inside when the sheet is fed a little askew.
constexpr double kLabelPadding = 4.0 * kPointsPerMillimetre;
constexpr double kLabelCodeSize = 26.0 * kPointsPerMillimetre;

constexpr TextStyle kLabelMark{Face::bold, 13.0, 14.5, kInk};
constexpr TextStyle kLabelLine{Face::regular, 7.0, 8.7, kInk};
/// Lines that fit beside the code below the two marks.
constexpr std::size_t kLines = 6;
constexpr double kTextWidth = kWidth - 2.0 * kLabelPadding - kLabelCodeSize;

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

class LabelSheets {
 public:
  explicit LabelSheets(PdfDocument& pdf) : pdf_(pdf) {}

  void add(const Label& label) {
    const std::size_t place = count_++ % (kAcross * kDown);
    if (place == 0) page_ = pdf_.add_page();
    const std::size_t column = place % kAcross;
    const std::size_t row = place / kAcross;
    const double left = static_cast<double>(column) * kWidth + kLabelPadding;
    const double top = kTop - static_cast<double>(row) * kHeight - kLabelPadding;
    draw_qr_code(pdf_, page_, {left + kWidth - 2.0 * kLabelPadding - kLabelCodeSize, top - kLabelCodeSize},
                 kLabelCodeSize, part_code(label.global_id, label.part));
    double y = line(left, top, label.panel, kLabelMark);
    y = line(left, y, label.part, kLabelMark);
    for (const std::string& text : broken(label.lines)) y = line(left, y, text, kLabelLine);
  }

  std::size_t count() const { return count_; }

 private:
  PdfDocument& pdf_;
  std::size_t count_ = 0;
  std::size_t page_ = 0;

  Measure measure_in(const TextStyle& style) const {
    return [this, style](std::string_view piece) { return pdf_.text_width(piece, style.face, style.size); };
  }

  /// The first texts that need a second line get it while there is room: the grade stands at the end of a material.
  std::vector<std::string> broken(const std::vector<std::string>& texts) const {
    const auto filled =
        static_cast<std::size_t>(std::ranges::count_if(texts, [](const std::string& text) { return !text.empty(); }));
    std::size_t spare = kLines - std::min(kLines, filled);
    std::vector<std::string> lines;
    for (const std::string& text : texts) {
      if (text.empty()) continue;
      const std::string first = wrap(text, kTextWidth, measure_in(kLabelLine)).front();
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

  double line(double left, double top, const std::string& text, const TextStyle& style) {
    pdf_.text(page_, {left, top - style.size}, shorten(text, kTextWidth, measure_in(style)), style);
    return top - style.leading;
  }
};

void add_labels(LabelSheets& sheets, const BuildSummary& build, const PanelSummary& panel, const Table& table) {
  const std::string batch = batch_of(build, panel);
  for (const std::vector<Value>& row : table.rows) {
    constexpr double kMostPieces = 10000.0;  // of one kind in one panel; more is a slip that would fill the disk
    const auto pieces = static_cast<std::size_t>(std::clamp(number_of(cell(table, row, "count")), 0.0, kMostPieces));
    for (std::size_t piece = 1; piece <= pieces; ++piece) {
      sheets.add({panel.mark,
                  panel.global_id,
                  text_of(cell(table, row, "part mark")),
                  {text_of(cell(table, row, "kind")) + ", " + std::to_string(piece) + " of " + std::to_string(pieces),
                   text_of(cell(table, row, "material")), size_of(table, row), shape_of(table, row), batch}});
    }
  }
}

}  // namespace

std::string part_code(const std::string& global_id, const std::string& part_mark) {
  return "panel-dossier:" + global_id + ":" + part_mark;
}

std::size_t write_labels(const ResultsDocument& results, const DossierFonts& fonts, const std::filesystem::path& file) {
  PdfDocument pdf(fonts);
  pdf.information("Part labels: " + results.project.name, "Labels of the parts of timber cassette panels",
                  results.build.time_utc);
  LabelSheets sheets(pdf);
  for (const PanelSummary& panel : results.panels) {
    const RecordedFinding* list = finding_of_role(results.build, panel.findings, role::kCuttingList);
    if (list == nullptr) continue;
    const Finding cutting_list = whole_finding(*list);
    if (const Table* pieces = find_table(cutting_list, "pieces")) add_labels(sheets, results.build, panel, *pieces);
  }
  if (sheets.count() > 0) pdf.save(file);
  return sheets.count();
}

}  // namespace panel_dossier
