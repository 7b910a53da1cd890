#include "core/trace/open_points.h"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <map>
#include <tuple>
#include <utility>
#include <variant>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

/// So many marks stand on a line; the table of open points holds all.
constexpr std::size_t kMarksShown = 6;

/// The reason with `#` for each number, so that panels with other figures share it.
std::string without_numbers(const std::string& reason) {
  std::string text;
  bool in_number = false;
  for (const char c : reason) {
    const bool digit = std::isdigit(static_cast<unsigned char>(c)) != 0;
    const bool inside = digit || (in_number && (c == '.' || c == ','));
    if (inside && !in_number) text += '#';
    if (!inside) text += c;
    in_number = inside;
  }
  return text;
}

int rank(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return 0;
    case Verdict::evidence_needed: return 1;
    case Verdict::not_assessed: return 2;
    case Verdict::pass:
    case Verdict::information: break;
  }
  return 3;
}

const char* who_closes(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return "designer of the discipline, with whoever approves the project";
    case Verdict::evidence_needed: return "whoever holds or issues the document: manufacturer, laboratory, installer";
    default: return "whoever exports the model, keeps the records and writes the settings";
  }
}

class Gatherer {
 public:
  void take(const std::vector<RecordedFinding>& findings, const PanelSummary* panel) {
    for (const RecordedFinding& finding : findings) {
      if (rank(finding.verdict) > 2) continue;
      const auto key = std::tuple(finding.check, finding.verdict, without_numbers(finding.reason), panel == nullptr);
      const auto [found, is_new] = index_.try_emplace(key, points_.size());
      if (is_new) points_.push_back(point_of(finding, panel));
      if (panel != nullptr) points_[found->second].marks.push_back(panel->mark);
    }
  }

  std::vector<OpenPoint> sorted() {
    join_alike();
    std::stable_sort(points_.begin(), points_.end(), [](const OpenPoint& a, const OpenPoint& b) {
      return std::tuple(rank(a.verdict), b.marks.size(), a.check) <
             std::tuple(rank(b.verdict), a.marks.size(), b.check);
    });
    return std::move(points_);
  }

 private:
  std::map<std::tuple<std::string, Verdict, std::string, bool>, std::size_t> index_;
  std::vector<OpenPoint> points_;

  /// What several checks of a discipline say word for word of the same panels has one cause, and is closed at once.
  void join_alike() {
    std::map<std::tuple<Verdict, std::string, std::string, std::vector<std::string>>, std::size_t> first_of;
    std::vector<OpenPoint> joined_points;
    for (OpenPoint& point : points_) {
      const std::string discipline = point.check.substr(0, point.check.find('.'));
      const auto key = std::tuple(point.verdict, discipline, point.what, point.marks);
      const auto [found, is_new] = first_of.try_emplace(key, joined_points.size());
      if (is_new) {
        joined_points.push_back(std::move(point));
        continue;
      }
      OpenPoint& first = joined_points[found->second];
      first.check += "; " + point.check;
      first.title += "; " + point.title;
    }
    points_ = std::move(joined_points);
  }

  static OpenPoint point_of(const RecordedFinding& finding, const PanelSummary* panel) {
    OpenPoint point;
    point.verdict = finding.verdict;
    point.check = finding.check;
    point.title = finding.title;
    point.what = finding.reason;
    if (finding.verdict == Verdict::fail && std::holds_alternative<double>(finding.value)) {
      const int decimals = finding.derivation->decimals;
      point.what = readable_text(finding.value, finding.unit, decimals) + " against " +
                   readable_text(finding.limit, finding.unit, decimals) + ": " + finding.reason;
    }
    point.who = who_closes(finding.verdict);
    if (panel != nullptr) point.first_panel = panel->global_id;
    return point;
  }
};

std::string discipline_of_point(const OpenPoint& point) {
  return point.check.substr(0, point.check.find('.'));
}

bool shows_something(const RecordedFinding& finding) {
  return !std::holds_alternative<std::monostate>(finding.value) || finding.verdict == Verdict::pass ||
         finding.verdict == Verdict::fail;
}

/// How far one discipline has come.
struct Standing {
  std::size_t findings = 0;
  bool shows = false;
};

void take(const std::vector<RecordedFinding>& findings, std::map<std::string, Standing>& standings) {
  for (const RecordedFinding& finding : findings) {
    Standing& standing = standings[finding.check.substr(0, finding.check.find('.'))];
    ++standing.findings;
    standing.shows = standing.shows || shows_something(finding);
  }
}

/// One point for all of a discipline that shows nothing.
OpenPoint point_of_discipline(const PluginSummary& plugin, const std::vector<OpenPoint>& points) {
  OpenPoint whole;
  whole.check = plugin.id;
  whole.title = plugin.title;
  whole.who = who_closes(Verdict::not_assessed);
  const auto causes = std::count_if(points.begin(), points.end(),
                                    [&](const OpenPoint& point) { return discipline_of_point(point) == plugin.id; });
  whole.what = "nothing of this discipline can be assessed yet; open-points.csv holds the " + std::to_string(causes) +
               " causes, and `panel-dossier check` says what is missing and where it can come from";
  return whole;
}

std::string cell(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

}  // namespace

std::vector<OpenPoint> open_points(const ResultsDocument& document) {
  Gatherer gatherer;
  for (const PanelSummary& panel : document.panels) gatherer.take(panel.findings, &panel);
  gatherer.take(document.project_findings, nullptr);
  return gatherer.sorted();
}

std::vector<OpenPoint> open_points_of(const PanelSummary& panel) {
  Gatherer gatherer;
  gatherer.take(panel.findings, &panel);
  return gatherer.sorted();
}

std::vector<std::string> disciplines_without_result(const ResultsDocument& document) {
  std::map<std::string, Standing> standings;
  for (const PanelSummary& panel : document.panels) take(panel.findings, standings);
  take(document.project_findings, standings);
  std::vector<std::string> silent;
  for (const PluginSummary& plugin : document.build.plugins) {
    const auto standing = standings.find(plugin.id);
    if (standing != standings.end() && !standing->second.shows) silent.push_back(plugin.id);
  }
  return silent;
}

std::vector<OpenPoint> in_short(const std::vector<OpenPoint>& points, const ResultsDocument& document) {
  const std::vector<std::string> silent = disciplines_without_result(document);
  const auto is_silent = [&](const std::string& id) {
    return std::find(silent.begin(), silent.end(), id) != silent.end();
  };
  std::vector<OpenPoint> shown;
  for (const PluginSummary& plugin : document.build.plugins) {
    if (is_silent(plugin.id)) shown.push_back(point_of_discipline(plugin, points));
  }
  std::copy_if(points.begin(), points.end(), std::back_inserter(shown),
               [&](const OpenPoint& point) { return !is_silent(discipline_of_point(point)); });
  return shown;
}

std::size_t count_of(const std::vector<OpenPoint>& points, Verdict verdict) {
  return static_cast<std::size_t>(
      std::count_if(points.begin(), points.end(), [&](const OpenPoint& point) { return point.verdict == verdict; }));
}

std::string subject_of(const OpenPoint& point) {
  if (point.marks.empty()) return "the project";
  if (point.marks.size() == 1) return "panel '" + point.marks.front() + "'";
  const std::size_t shown = std::min(point.marks.size(), kMarksShown);
  std::string text = std::to_string(point.marks.size()) + " panels: " +
                     joined({point.marks.begin(), point.marks.begin() + static_cast<std::ptrdiff_t>(shown)});
  if (shown < point.marks.size()) text += ", …";
  return text;
}

std::string open_points_csv(const std::vector<OpenPoint>& points) {
  std::string csv = "verdict,check,title,what,who,panels,marks\r\n";
  for (const OpenPoint& point : points) {
    csv +=
        joined({std::string(to_string(point.verdict)), point.check, cell(point.title), cell(visible_lines(point.what)),
                cell(point.who), std::to_string(point.marks.size()), cell(visible_lines(joined(point.marks, " ")))},
               ",") +
        "\r\n";
  }
  return csv;
}

}  // namespace panel_dossier
