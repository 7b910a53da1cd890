// What changed since the last issue and the last build, causes first, and how the project went from build to build.
#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "core/dossier/layout/chart.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kMarksOfChange = 12;

std::string shown(const std::string& text) {
  return text.empty() ? "–" : text;
}

void write_causes(Book& book, const Comparison& comparison) {
  TableSpec table;
  table.columns = {{"cause"},          {"before"},      {"after"}, {"figures", true},
                   {"verdicts", true}, {"worse", true}, {"panels"}};
  const auto add = [&table](std::vector<Cell> cells, const Effects& effects, std::string panels) {
    for (const std::size_t count : {effects.figures, effects.verdicts, effects.worse}) {
      cells.emplace_back(std::to_string(count));
    }
    cells.back().bold = effects.worse > 0;
    cells.emplace_back(std::move(panels));
    table.rows.push_back(std::move(cells));
  };
  for (const Cause& cause : comparison.causes) {
    std::string panels = list_some(cause.panels, 20);
    if (cause.kind == CauseKind::export_file && panels.empty()) panels = "the data of none changed";
    add({std::string(to_string(cause.kind)) + " " + cause.name, shown(cause.before), shown(cause.after)}, cause.effects,
        panels);
  }
  const Effects& rest = comparison.not_attributed;
  if (rest.figures + rest.verdicts > 0) add({"not attributed to one of them", "–", "–"}, rest, "");
  if (table.rows.empty()) return;
  book.flow.paragraph(
      "What differs between the inputs, and what moved for it, as far as the origins of the inputs of each finding say "
      "so. What moved for two causes counts under both.");
  set_table(book.flow, std::move(table));
}

std::string place_of(const ChangeGroup& group) {
  if (group.marks.empty()) return "project";
  return list_some(group.marks, kMarksOfChange) + (group.count > group.marks.size() ? " and the project" : "");
}

void write_moved_verdicts(Book& book, const Comparison& comparison) {
  const std::vector<ChangeGroup> groups = groups_of(comparison, false);
  if (groups.empty()) {
    book.flow.paragraph("No verdict moved, and no panel came or went.");
    return;
  }
  book.flow.paragraph(
      "Verdicts that moved, and panels that came or went; those for the worse come first. Before and after are those "
      "of "
      "the first of them.");
  TableSpec table;
  table.columns = {{"what"}, {"before"}, {"after"}, {"count", true}, {"panels"}, {"worse"}, {"cause"}};
  for (const ChangeGroup& group : groups) {
    const Change& first = *group.most;
    const bool of_panel = first.check.empty();
    table.rows.push_back({of_panel ? std::string(to_string(first.kind)) : first.check,
                          of_panel ? "–" : shown(first.before), of_panel ? "–" : shown(first.after),
                          std::to_string(group.count), place_of(group), first.worse ? "worse" : "",
                          causes_text(comparison, first)});
    table.rows.back()[5].bold = first.worse;
  }
  set_table(book.flow, std::move(table));
}

void write_moved_figures(Book& book, const Comparison& comparison) {
  const std::string percent = format_significant(comparison.least_share * 100.0) + " %";
  const std::vector<ChangeGroup> groups = groups_of(comparison, true);
  if (!groups.empty()) {
    book.flow.paragraph("Figures that moved by more than " + percent + ", and the one of each row that moved most.");
    TableSpec table;
    table.columns = {{"check"}, {"figures", true}, {"most in"}, {"before"}, {"after"}, {"by"}, {"cause"}};
    for (const ChangeGroup& group : groups) {
      const Change& most = *group.most;
      std::string by = "–";
      if (most.share) by = (*most.share > 0.0 ? "+" : "") + format_significant(*most.share * 100.0) + " %";
      table.rows.push_back({most.check, std::to_string(group.count),
                            most.panel_mark.empty() ? "project" : most.panel_mark, most.before, most.after, by,
                            causes_text(comparison, most)});
    }
    set_table(book.flow, std::move(table));
  }
  if (const std::size_t small = comparison.small_figures(); small > 0) {
    book.flow.paragraph(in_number(small, "figure") + " moved by " + percent + " or less.");
  }
}

void write_comparison(Book& book, const Comparison& comparison) {
  book.flow.heading("Since " + to_string(comparison.before), type::kHeading, 90.0);
  if (comparison.nothing_changed()) {
    book.flow.paragraph("Nothing changed.");
    return;
  }
  write_causes(book, comparison);
  write_moved_verdicts(book, comparison);
  write_moved_figures(book, comparison);
}

constexpr std::size_t kMostNights = 60;  // in charts

/// One point a build, this one at 0 and those before it to the left.
template <typename Value>
Curve curve_of(const std::string& name, const std::vector<HistoryEntry>& entries, Value value) {
  Curve curve{name, {}};
  const auto last = static_cast<double>(entries.size()) - 1.0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    curve.points.push_back({static_cast<double>(i) - last, value(entries[i])});
  }
  return curve;
}

Series history_series(const std::string& title, const std::string& label, const std::string& unit) {
  Series series;
  series.title = title;
  series.x_label = "builds, this one at 0";
  series.y_label = label;
  series.y_unit = unit;
  return series;
}

std::vector<Series> history_charts(const std::vector<HistoryEntry>& entries) {
  const auto number = [](std::size_t count) { return static_cast<double>(count); };
  Series open = history_series("What fails or is open", "findings", "");
  open.curves = {curve_of("fail", entries, [&](const HistoryEntry& entry) { return number(entry.verdicts.fail); }),
                 curve_of("evidence needed", entries,
                          [&](const HistoryEntry& entry) { return number(entry.verdicts.evidence_needed); }),
                 curve_of("not assessed", entries,
                          [&](const HistoryEntry& entry) { return number(entry.verdicts.not_assessed); })};
  std::vector<Series> charts{open};
  for (const HistoryFigure& figure : entries.back().figures) {
    Series series = history_series(figure.title, "total", figure.unit);
    series.curves = {curve_of("all panels", entries, [&](const HistoryEntry& entry) {
      const auto same = std::ranges::find_if(entry.figures, [&](const HistoryFigure& other) {
        return other.role == figure.role && other.unit == figure.unit;
      });
      return same == entry.figures.end() ? std::nan("") : same->value;
    })};
    charts.push_back(std::move(series));
  }
  return charts;
}

std::vector<Block> chart_blocks(PdfDocument& pdf, const std::vector<HistoryEntry>& entries, double width) {
  std::vector<Block> blocks;
  for (Series& series : history_charts(entries)) {
    const double height = chart_height(pdf, series, width);
    blocks.push_back({height + 6.0, false,
                      [&pdf, series = std::move(series), height, width](std::size_t page, double left, double top) {
                        draw_chart(pdf, page, series, {left, top - height, left + width, top - 2.0});
                      }});
  }
  return blocks;
}

void write_history_table(Book& book, const std::vector<HistoryEntry>& entries) {
  TableSpec table;
  table.columns = {
      {"built"},        {"issue"}, {"panels", true}, {"fail", true}, {"evidence", true}, {"not assessed", true},
      {"causes", true}, {"root"}};
  for (std::size_t i = entries.size(); i > 0; --i) {
    const HistoryEntry& entry = entries[i - 1];
    const std::size_t causes = entry.causes.fail + entry.causes.evidence_needed + entry.causes.not_assessed;
    table.rows.push_back({entry.time_utc + (entry.incomplete ? " (incomplete)" : ""),
                          entry.issue.is_issue() ? entry.issue.id : "–", std::to_string(entry.panels),
                          std::to_string(entry.verdicts.fail), std::to_string(entry.verdicts.evidence_needed),
                          std::to_string(entry.verdicts.not_assessed), std::to_string(causes),
                          entry.hash_tree_root.substr(0, 16)});
  }
  set_table(book.flow, std::move(table));
}

void write_history(Book& book) {
  const std::vector<HistoryEntry>& all = book.content.history;
  if (all.size() < 2) return;
  const auto shown_count = static_cast<std::ptrdiff_t>(std::min(all.size(), kMostNights));
  const std::vector<HistoryEntry> entries(all.end() - shown_count, all.end());
  constexpr int kChartColumns = 3;
  constexpr double kIntroduction = 40.0;
  const std::vector<Block> charts = chart_blocks(book.pdf, entries, column_span(0, kChartColumns).width());
  // All on one page, so that they can be read against each other.
  const std::size_t rows = (charts.size() + kChartColumns - 1) / kChartColumns;
  const double height = kIntroduction + static_cast<double>(rows) * charts.front().height;
  book.flow.heading("From build to build", type::kHeading, std::min(book.flow.page_room() / 2.0, height));
  book.flow.paragraph("The last " + in_number(entries.size(), "build") + " of " + std::to_string(all.size()) +
                      " that are kept, each with its open points; the figures are the project's.");
  book.flow.columns(charts, kChartColumns);
  write_history_table(book, entries);
}

}  // namespace

void write_changes(Book& book) {
  book.begin_part(DossierPart::changes);
  for (const std::string& warning : book.results().build.warnings) book.flow.item(warning);
  if (book.content.comparisons.empty()) {
    book.flow.paragraph(
        book.content.history.size() < 2
            ? "There is no earlier build or issue to compare with."
            : "The results of the last build and of the last issue are no more at hand, so that nothing "
              "is compared; the key figures of earlier builds were kept.");
  }
  for (const Comparison& comparison : book.content.comparisons) write_comparison(book, comparison);
  write_history(book);
}

}  // namespace panel_dossier
