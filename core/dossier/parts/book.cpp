#include "core/dossier/parts/book.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

constexpr std::array<Verdict, 5> kByUrgency{Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed,
                                            Verdict::pass, Verdict::information};

}  // namespace

std::string_view part_title(DossierPart part) {
  switch (part) {
    case DossierPart::introduction: return "What this is and who made it";
    case DossierPart::outcome: return "What is proved and what is open";
    case DossierPart::building: return "The building and its panels";
    case DossierPart::types: return "Panel types";
    case DossierPart::panels: return "Panels";
    case DossierPart::maintenance: return "Operation and maintenance";
    case DossierPart::safety_file: return "Health and safety file";
    case DossierPart::fire_information: return "Fire safety information";
    case DossierPart::evidence: return "Evidence register";
    case DossierPart::open_points: return "Open points, contradictions, assumptions";
    case DossierPart::changes: return "Changes since the last issue and the last build";
    case DossierPart::verification: return "How to verify the signature and the hashes";
    case DossierPart::annex: return "Annex: the calculations";
  }
  return "";
}

std::string numbered_title(DossierPart part) {
  const std::string title(part_title(part));
  return part == DossierPart::annex ? title : std::to_string(static_cast<int>(part)) + "  " + title;
}

std::string part_anchor(DossierPart part) {
  return "part-" + std::to_string(static_cast<int>(part));
}

std::string check_anchor(std::string_view check) {
  return "check-" + std::string(check);
}

std::string discipline_anchor(std::string_view discipline) {
  return "discipline-" + std::string(discipline);
}

std::string panel_anchor(std::string_view global_id) {
  return "panel-" + std::string(global_id);
}

std::string type_anchor(std::string_view type) {
  return "type-" + std::string(type);
}

std::string build_up_anchor(std::size_t build_up) {
  return "upkeep-build-up-" + std::to_string(build_up + 1);
}

std::string_view discipline_of(std::string_view check) {
  return check.substr(0, check.find('.'));
}

bool is_for_workshop(const BuildSummary& build, std::string_view check) {
  for (const PluginSummary& plugin : build.plugins) {
    for (const CheckDeclaration& declared : plugin.checks) {
      if (declared.id == check) return declared.for_workshop;
    }
  }
  return false;
}

void count_verdicts(const std::vector<RecordedFinding>& findings, VerdictCounts& counts) {
  for (const RecordedFinding& finding : findings) ++counts[static_cast<std::size_t>(finding.verdict)];
}

std::vector<VerdictCount> listed(const VerdictCounts& counts) {
  std::vector<VerdictCount> list;
  for (const Verdict verdict : kByUrgency) {
    const std::size_t count = counts[static_cast<std::size_t>(verdict)];
    if (count > 0) list.push_back({verdict, count});
  }
  return list;
}

Verdict worst_verdict(const std::vector<RecordedFinding>& findings) {
  if (findings.empty()) return Verdict::not_assessed;
  return std::max_element(
             findings.begin(), findings.end(),
             [](const RecordedFinding& a, const RecordedFinding& b) { return urgency(a.verdict) < urgency(b.verdict); })
      ->verdict;
}

const Guidance& Book::guidance() const {
  static const Guidance kNone;
  return content.guidance != nullptr ? *content.guidance : kNone;
}

const PluginSummary* Book::plugin(std::string_view id) const {
  const auto& plugins = results().build.plugins;
  const auto found =
      std::find_if(plugins.begin(), plugins.end(), [id](const PluginSummary& summary) { return summary.id == id; });
  return found == plugins.end() ? nullptr : &*found;
}

std::string Book::with_titles(const std::string& text) const {
  // Looked for by hand: a library for regular expressions needs a stack as deep as a word is long, and names come from
  // the export.
  constexpr std::string_view kOfNames = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_.";
  std::string told;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = std::min(text.find_first_of(kOfNames, at), text.size());
    told.append(text, at, begin - at);
    at = std::min(text.find_first_not_of(kOfNames, begin), text.size());
    std::string word = text.substr(begin, at - begin);
    std::string dots;  // that end a sentence
    for (; word.ends_with('.'); word.pop_back()) dots += '.';
    const std::string* title = title_of(word);
    const bool is_quoted = told.ends_with('\'') && at < text.size() && text[at] == '\'';
    const char* quote = title == nullptr || is_quoted ? "" : "'";
    told += quote + (title == nullptr ? word : *title) + quote + dots;
  }
  return told;
}

const std::string* Book::title_of(const std::string& word) const {
  const auto property = content.property_titles.find(word);
  if (property != content.property_titles.end()) return &property->second;
  for (const PluginSummary& summary : results().build.plugins) {
    if (discipline_of(word) != summary.id) continue;
    for (const CheckDeclaration& declared : summary.checks) {
      if (declared.id == word) return &declared.title;
    }
  }
  return nullptr;
}

std::string Book::title_of_property(std::string_view full_name) const {
  const auto found = content.property_titles.find(full_name);
  return found == content.property_titles.end() ? std::string(full_name) : found->second;
}

bool Book::is_silent(std::string_view check) const {
  return std::find(silent.begin(), silent.end(), discipline_of(check)) != silent.end();
}

std::string Book::silence_of(const PluginSummary& plugin) {
  return plugin.title + ": nothing of this discipline can be assessed yet. The file open-points.csv holds the causes.";
}

std::string Book::joined_cautions() const {
  std::string text;
  for (const PluginSummary& summary : results().build.plugins) {
    if (summary.caution.empty()) continue;
    text += (text.empty() ? "" : " ") + summary.title + ": " + summary.caution;
  }
  return text;
}

std::string Book::caution_line() const {
  const auto& plugins = results().build.plugins;
  const bool any =
      std::any_of(plugins.begin(), plugins.end(), [](const auto& plugin) { return !plugin.caution.empty(); });
  if (!any) return {};
  return std::string(
             "For competent persons; local codes and the project's engineers come first. All cautions in full: ") +
         (for_workshop ? "page 1." : "part 7.");
}

std::size_t Book::begin_part(DossierPart part, const std::string& caution) {
  const std::string title = numbered_title(part);
  flow.start_page({title, caution});
  pdf.anchor(part_anchor(part), flow.page(), grid::kTop + 10.0);
  const std::size_t bookmark = pdf.bookmark(std::nullopt, title, flow.page(), grid::kTop + 10.0);
  flow.heading(title, type::kPart);
  flow.skip(6.0);
  return bookmark;
}

Cell value_cell(const RecordedFinding& finding) {
  const std::string text = format_value(finding.value, finding.unit, finding.derivation->decimals);
  return text.empty() ? Cell("–") : Cell(text);
}

Cell limit_cell(const RecordedFinding& finding) {
  const std::string text = format_limit(finding);
  return text.empty() ? Cell("–") : Cell(text);
}

Cell utilisation_cell(const RecordedFinding& finding) {
  return finding.utilisation ? Cell(format_fixed(*finding.utilisation, 2)) : Cell("–");
}

std::vector<std::string> in_groups(const std::vector<std::string>& names, std::size_t size) {
  std::vector<std::string> groups;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i % size == 0) {
      groups.push_back(names[i]);
    } else {
      groups.back() += ", " + names[i];
    }
  }
  return groups;
}

}  // namespace panel_dossier
