#include "core/cli/build/nights/morning_summary.h"

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <system_error>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/html_text.h"
#include "core/dossier/layout/number_format.h"
#include "core/intake/document/file_bytes.h"
#include "core/trace/comparison_text.h"
#include "core/trace/verdict_totals.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostInLine = 3;      // so that a line stays a line of a mail
constexpr std::size_t kMostInSection = 40;  // of the page; the dossier and `compare` hold all

/// The first few texts and how many more there are.
std::string some_of(const std::vector<std::string>& texts, const char* separator) {
  const std::size_t shown = std::min(kMostInLine, texts.size());
  std::string text = joined({texts.begin(), texts.begin() + static_cast<std::ptrdiff_t>(shown)}, separator);
  if (shown < texts.size()) text += std::string(separator) + std::to_string(texts.size() - shown) + " more";
  return text;
}

std::string state_text(const ResultsDocument& document, const std::vector<OpenPoint>& points) {
  const VerdictTotals totals = verdict_totals(document);
  std::string text = document.build.incomplete ? "INCOMPLETE, " : "";
  if (totals.fail > 0) {
    text += "FAILS: ";
  } else {
    text += totals.evidence_needed + totals.not_assessed > 0 ? "OPEN: " : "all pass: ";
  }
  return text + std::to_string(totals.fail) + " fail, " + std::to_string(totals.evidence_needed) +
         " evidence needed, " + std::to_string(totals.not_assessed) + " not assessed, " + std::to_string(totals.pass) +
         " pass in " + in_number(document.panels.size(), "panel") + "; " + in_number(points.size(), "open cause");
}

/// `quarry.dust (31)`, or `quarry.dust of 'P-01'` of one alone.
std::string worse_group(const ChangeGroup& group) {
  const Change& change = *group.most;
  const std::string what = change.check.empty() ? std::string(to_string(change.kind)) : change.check;
  if (group.count > 1) return what + " (" + std::to_string(group.count) + ")";
  return what + " of " + (change.panel_mark.empty() ? "the project" : "'" + change.panel_mark + "'");
}

/// One text a group of changes for the worse.
std::vector<std::string> worse_groups(const Comparison& comparison) {
  std::vector<std::string> texts;
  for (const ChangeGroup& group : groups_of(comparison, false)) {
    if (group.most->worse) texts.push_back(worse_group(group));
  }
  return texts;
}

std::string worse_text(const std::vector<Comparison>& comparisons) {
  if (comparisons.empty()) return "no earlier build to compare with";
  std::vector<std::string> texts;
  for (const Comparison& comparison : comparisons) {
    const std::vector<std::string> worse = worse_groups(comparison);
    texts.push_back((worse.empty() ? "none" : std::to_string(comparison.worse())) + " since " +
                    to_string(comparison.before) + (worse.empty() ? "" : " (" + some_of(worse, ", ") + ")"));
  }
  return joined(texts, "; ");
}

std::string causes_line(const std::vector<Comparison>& comparisons) {
  if (comparisons.empty()) return "no earlier build to compare with";
  const Comparison& night = comparisons.back();
  if (night.nothing_changed()) return "nothing changed since " + to_string(night.before);
  std::vector<std::string> texts;
  for (const Cause& cause : night.causes) texts.push_back(to_string(cause) + " (" + to_string(cause.effects) + ")");
  const Effects& rest = night.not_attributed;
  if (rest.figures + rest.verdicts > 0) texts.push_back("not attributed (" + to_string(rest) + ")");
  return some_of(texts, "; ");
}

std::string issue_text(const BuildSummary& build) {
  std::string text = build.issue.is_issue() ? "issue " + build.issue.id : "a working build, no issue";
  if (!build.issue.status.empty()) text += ", " + build.issue.status;
  return text + (build.signed_for_issue ? "; signed for issue" : "; NOT SIGNED FOR ISSUE");
}

std::vector<std::string> split_lines(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

SummarySection section(std::string heading, std::vector<std::string> lines) {
  if (lines.size() > kMostInSection) {
    const std::size_t more = lines.size() - kMostInSection;
    lines.resize(kMostInSection);
    lines.push_back("and " + std::to_string(more) + " more");
  }
  return {std::move(heading), std::move(lines)};
}

}  // namespace

MorningSummary summary_of(const ResultsDocument& document, const std::vector<OpenPoint>& points,
                          const std::vector<Comparison>& comparisons, const fs::path& dossier) {
  MorningSummary summary;
  summary.title = document.project.name + ", build of " + document.build.time_utc;
  summary.lines = {{{"state", state_text(document, points)},
                    {"worse", worse_text(comparisons)},
                    {"causes", causes_line(comparisons)},
                    {"issue", issue_text(document.build)},
                    {"dossier", dossier.string()}}};
  std::vector<std::string> failures = document.build.failures;
  failures.insert(failures.end(), document.build.warnings.begin(), document.build.warnings.end());
  if (!failures.empty()) summary.sections.push_back(section("The run itself", std::move(failures)));
  for (const Comparison& comparison : comparisons) {
    summary.sections.push_back(section("Since " + to_string(comparison.before),
                                       split_lines(comparison_text(comparison, ChangeLines::grouped))));
  }
  std::vector<std::string> open;
  open.reserve(points.size());
  for (const OpenPoint& point : points) {
    open.push_back(subject_of(point) + ": " + point.check + ": " + std::string(to_string(point.verdict)) + ": " +
                   point.what + " (" + point.who + ")");
  }
  if (!open.empty()) summary.sections.push_back(section("What fails or is open", std::move(open)));
  return summary;
}

MorningSummary summary_of_failure(const std::string& state, const std::string& reason, const std::string& what_stands,
                                  const fs::path& log) {
  MorningSummary summary;
  summary.title = "panel-dossier: no build: " + state;
  summary.lines = {{{"state", "NO BUILD: " + state},
                    {"reason", reason},
                    {"causes", "not known without a build"},
                    {"log", log.empty() ? "none is kept" : log.string()},
                    {"dossier", what_stands}}};
  return summary;
}

std::string five_lines(const MorningSummary& summary) {
  std::string text;
  for (const auto& [word, line] : summary.lines) text += word + ": " + visible_text(line) + "\n";
  return text;
}

std::string summary_text(const MorningSummary& summary) {
  std::string text = visible_text(summary.title) + "\n\n" + five_lines(summary);
  for (const SummarySection& part : summary.sections) {
    text += "\n" + visible_text(part.heading) + "\n";
    for (const std::string& line : part.lines) text += "  " + visible_text(line) + "\n";
  }
  return text;
}

std::string summary_html(const MorningSummary& summary) {
  std::string html = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>" +
                     html_escaped(summary.title) +
                     "</title>\n<style>body{font-family:sans-serif;max-width:60em;margin:1em auto;line-height:1.4}"
                     "th{text-align:left;vertical-align:top;padding-right:1em}</style>\n</head>\n<body>\n<h1>" +
                     html_escaped(summary.title) + "</h1>\n<table>\n";
  for (const auto& [word, line] : summary.lines) {
    html += "<tr><th>" + html_escaped(word) + "</th><td>" + html_escaped(line) + "</td></tr>\n";
  }
  html += "</table>\n";
  for (const SummarySection& part : summary.sections) {
    html += "<h2>" + html_escaped(part.heading) + "</h2>\n<ul>\n";
    for (const std::string& line : part.lines) html += "<li>" + html_escaped(line) + "</li>\n";
    html += "</ul>\n";
  }
  return html + "</body>\n</html>\n";
}

std::pair<fs::path, fs::path> summary_files(const fs::path& file) {
  fs::path stem = file;
  if (stem.extension() == ".txt" || stem.extension() == ".html") stem.replace_extension();
  return {stem.string() + ".txt", stem.string() + ".html"};
}

void write_summary(const MorningSummary& summary, const fs::path& file) {
  const auto [text, html] = summary_files(file);
  write_in_one_step(text, summary_text(summary));
  write_in_one_step(html, summary_html(summary));
}

}  // namespace panel_dossier
