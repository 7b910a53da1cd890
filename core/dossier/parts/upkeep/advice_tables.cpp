#include "core/dossier/parts/upkeep/advice_tables.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

std::string panels_in_words(const Project& project, const std::vector<std::size_t>& panels) {
  if (panels.empty()) return {};
  if (panels.size() > 1 && panels.size() == project.panels.size())
    return "all " + std::to_string(panels.size()) + " panels";
  std::map<std::string, std::pair<std::size_t, std::size_t>> by_type;  // meant, all
  for (const Panel& panel : project.panels) ++by_type[panel.type].second;
  for (const std::size_t panel : panels) ++by_type[project.panels[panel].type].first;
  std::vector<std::string> whole;
  const bool by_types = std::all_of(by_type.begin(), by_type.end(), [&whole](const auto& entry) {
    const auto& [meant, all] = entry.second;
    if (meant > 0 && !entry.first.empty()) whole.push_back(entry.first);
    return meant == 0 || (meant == all && !entry.first.empty());
  });
  if (by_types && panels.size() > whole.size()) return "all of " + joined(whole);
  std::vector<std::string> marks;
  marks.reserve(panels.size());
  for (const std::size_t panel : panels) marks.push_back(project.panels[panel].mark);
  return joined(marks);
}

std::string subjects_in_words(const Guidance& guidance, const Advice& advice) {
  std::vector<std::string> names;
  for (const std::size_t index : advice.subjects) {
    const Subject& subject = guidance.subjects.all[index];
    if (subject.kind == SubjectKind::panel || subject.kind == SubjectKind::project) return {};
    if (std::find(names.begin(), names.end(), subject.name) == names.end()) names.push_back(subject.name);
  }
  return joined(names);
}

std::string interval_in_words(const std::optional<double>& years) {
  if (!years) return {};
  constexpr double kMonths = 12.0;
  const auto months = std::lround(*years * kMonths);
  if (months == 12) return "every year";
  if (months % 12 == 0) return "every " + std::to_string(months / 12) + " years";
  return "every " + std::to_string(months) + " months";
}

std::vector<std::size_t> calendar_numbers(const Guidance& guidance) {
  std::vector<std::size_t> numbers(guidance.advice.size(), 0);
  std::size_t last = 0;
  for (std::size_t i = 0; i < guidance.advice.size(); ++i) {
    if (guidance.advice[i].interval_years && guidance.advice[i].missing.empty()) numbers[i] = ++last;
  }
  return numbers;
}

namespace {

/// A check or property that a row names as its source, by the name that people know it by.
std::string source_in_words(const Book& book, const std::string& source) {
  constexpr std::string_view kFinding = "finding ";
  if (!source.starts_with(kFinding)) return book.with_titles(source);
  const std::string id = source.substr(kFinding.size());
  if (const PluginSummary* plugin = book.plugin(discipline_of(id))) {
    for (const CheckDeclaration& check : plugin->checks) {
      if (check.id == id) return "finding '" + check.title + "'";
    }
  }
  return source;
}

}  // namespace

std::string scope_in_words(const Book& book, const Advice& advice) {
  const GuidanceRow& row = book.guidance().rows[advice.row];
  std::vector<std::string> texts;
  const std::string panels =
      row.of == SubjectKind::project ? std::string() : panels_in_words(book.project(), advice.panels);
  for (const std::string& text : {subjects_in_words(book.guidance(), advice), panels, row.who}) {
    if (!text.empty()) texts.push_back(text);
  }
  return joined(texts, "; ") + (texts.empty() ? "(" : " (") + source_in_words(book, row.source) + ")";
}

void set_advice(Book& book, std::string_view topic, const std::string& head) {
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{head}, {"of what, who (source)"}};
  for (const Advice* advice : book.guidance().of_topic(topic))
    table.rows.push_back({book.with_titles(advice->text), scope_in_words(book, *advice)});
  if (!table.rows.empty()) set_table(book.flow, std::move(table));
}

void set_product_advice(Book& book, const std::vector<std::pair<std::string, std::string>>& topics_and_heads) {
  const Guidance& guidance = book.guidance();
  TableSpec table;
  table.style = type::kFine;
  table.columns.push_back({"product"});
  for (const auto& [topic, head] : topics_and_heads) table.columns.push_back({head});
  for (std::size_t i = 0; i < guidance.subjects.all.size(); ++i) {
    const Subject& subject = guidance.subjects.all[i];
    if (subject.kind != SubjectKind::product) continue;
    std::vector<Cell> row{subject.name};
    bool says = false;
    for (const auto& [topic, head] : topics_and_heads) {
      const std::vector<std::string> texts = guidance.texts_on(i, topic);
      says = says || !texts.empty();
      row.emplace_back(texts.empty() ? "nothing stated" : joined(texts, " "));
    }
    if (says) table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) {
    book.flow.paragraph("Nothing is stated of any product.");
    return;
  }
  set_table(book.flow, std::move(table));
}

}  // namespace panel_dossier
