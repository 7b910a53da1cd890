#include "core/intake/document/diagnostics.h"

#include <algorithm>
#include <charconv>
#include <set>
#include <tuple>

#include "core/api/support/text_encoding.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

std::string to_string(const Diagnostic& diagnostic) {
  std::string text = diagnostic.file;
  if (diagnostic.line != 0) text += ":" + std::to_string(diagnostic.line);
  if (diagnostic.line != 0 && diagnostic.column != 0) text += ":" + std::to_string(diagnostic.column);
  if (!text.empty()) text += ": ";
  text += diagnostic.severity == Severity::error ? "error: " : "warning: ";
  std::string subject = diagnostic.entity;
  if (!subject.empty() && !diagnostic.global_id.empty()) subject += " ";
  subject += diagnostic.global_id;
  if (!subject.empty()) text += subject + ": ";
  text += diagnostic.message;
  if (!diagnostic.advice.empty()) text += "; " + diagnostic.advice;
  return visible_text(text);
}

bool has_errors(const Diagnostics& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::string place_in_words(const Origin& origin) {
  if (origin.kind == OriginKind::input_table) return origin.table + ", row " + origin.row;
  return origin.line == 0 ? std::string() : "line " + std::to_string(origin.line) + " of the export";
}

std::uint32_t row_number(const Origin& origin) {
  std::uint32_t number = 0;
  if (origin.kind != OriginKind::input_table) return number;
  const std::string& row = origin.row;
  std::from_chars(row.data(), row.data() + row.size(), number);
  return number;
}

namespace {

// Enough for anyone to work through; a hostile file could ask for millions.
constexpr std::size_t kMaxListed = 1000;

/// The element itself or the nearest one around it that is an entity.
Element nearest_entity(Element element) {
  if (element.is_step()) return element.step_instance();
  while (element && ifc_type(element).empty()) element = element.parent();
  return element;
}

std::string nearest_global_id(Element element) {
  for (; element; element = element.parent()) {
    std::string id = own_global_id(element);
    if (!id.empty()) return id;
  }
  return {};
}

/// `IfcWall`; in a STEP file `IfcWall #123`.
std::string subject_of(const Element& entity) {
  std::string subject(ifc_type(entity));
  if (entity.is_step()) subject += (subject.empty() ? "#" : " #") + std::to_string(entity.step_number());
  return subject;
}

}  // namespace

Reporter Reporter::for_the_same_file() const {
  Reporter other(file_);
  other.lines_ = lines_;
  return other;
}

void Reporter::take_over(Reporter other) {
  using Told = std::tuple<std::uint32_t, std::uint32_t, std::string>;
  std::set<Told> told;
  if (!other.diagnostics_.empty()) {
    for (const Diagnostic& diagnostic : diagnostics_) {
      told.emplace(diagnostic.line, diagnostic.column, diagnostic.message);
    }
  }
  std::size_t listed_errors = 0;
  for (Diagnostic& diagnostic : other.diagnostics_) {
    if (diagnostic.severity == Severity::error) ++listed_errors;
    if (told.contains({diagnostic.line, diagnostic.column, diagnostic.message})) continue;
    add(std::move(diagnostic));
  }
  unlisted_ += other.unlisted_;
  errors_ += other.errors_ - listed_errors;
}

void Reporter::error(const Element& at, std::string message, std::string advice) {
  add_at(Severity::error, at, std::move(message), std::move(advice));
}

void Reporter::warning(const Element& at, std::string message, std::string advice) {
  add_at(Severity::warning, at, std::move(message), std::move(advice));
}

void Reporter::file_error(std::uint32_t line, std::uint32_t column, std::string message, std::string advice) {
  add({Severity::error, {}, line, column, {}, {}, std::move(message), std::move(advice)});
}

void Reporter::file_warning(std::string message, std::string advice) {
  add({Severity::warning, {}, 0, 0, {}, {}, std::move(message), std::move(advice)});
}

void Reporter::error_at_offset(std::size_t offset, std::string message, std::string advice) {
  const LineTable::Position position = lines_->at(offset);
  file_error(position.line, position.column, std::move(message), std::move(advice));
}

void Reporter::add(Diagnostic diagnostic) {
  if (diagnostic.severity == Severity::error) ++errors_;
  if (diagnostics_.size() >= kMaxListed) {
    ++unlisted_;
    return;
  }
  diagnostic.file = file_;
  diagnostics_.push_back(std::move(diagnostic));
}

void Reporter::add_schema_breach(Diagnostic diagnostic) {
  ++errors_;
  if (schema_breaches_.size() >= kMaxListed) {
    ++unlisted_;
    return;
  }
  diagnostic.file = file_;
  schema_breaches_.push_back(std::move(diagnostic));
}

void Reporter::add_unlisted(std::size_t count) {
  errors_ += count;
  unlisted_ += count;
}

void Reporter::add_schema_breaches() {
  std::set<std::pair<std::uint32_t, std::string>> told;
  for (const Diagnostic& diagnostic : diagnostics_) told.emplace(diagnostic.line, diagnostic.entity);
  for (Diagnostic& breach : schema_breaches_) {
    // One breach a line and entity: libxml2 follows each with another that says the same in general words.
    if (told.emplace(breach.line, breach.entity).second) diagnostics_.push_back(std::move(breach));
  }
}

void Reporter::add_at(Severity severity, const Element& at, std::string message, std::string advice) {
  const Element entity = nearest_entity(at);
  const LineTable::Position position = at ? lines_->at(at.offset()) : LineTable::Position{};
  add({severity,
       {},
       position.line,
       position.column,
       subject_of(entity),
       nearest_global_id(entity),
       std::move(message),
       std::move(advice)});
}

SharedText Reporter::shared_id(std::string_view id) const {
  if (id.empty()) return {};
  // The last characters of a GlobalId differ most.
  const std::string_view end = id.substr(id.size() - std::min<std::size_t>(id.size(), 3));
  std::size_t slot = 0;
  for (const char c : end) slot = slot * 7 + static_cast<unsigned char>(c);
  SharedText& recent = recent_ids_[slot % recent_ids_.size()];
  if (recent.str() != id) recent = SharedText(id);
  return recent;
}

Origin Reporter::origin(const Element& at, std::string_view property) const {
  Origin origin;
  const Element entity = nearest_entity(at);
  origin.entity = texts_.of(ifc_type(entity));
  origin.global_id = shared_id(nearest_global_id(entity));
  origin.line = line(at);
  origin.property = texts_.of(property);
  return origin;
}

std::uint32_t Reporter::line(const Element& at) const {
  return at ? lines_->at(at.offset()).line : 0;
}

Diagnostics Reporter::take() {
  add_schema_breaches();
  std::stable_sort(diagnostics_.begin(), diagnostics_.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.line, a.column) < std::tie(b.line, b.column);
  });
  // A shape that many parts share is read, and found faulty, once for each of them.
  diagnostics_.erase(std::unique(diagnostics_.begin(), diagnostics_.end(),
                                 [](const Diagnostic& a, const Diagnostic& b) {
                                   return std::tie(a.line, a.column, a.message) ==
                                          std::tie(b.line, b.column, b.message);
                                 }),
                     diagnostics_.end());
  if (unlisted_ != 0) {
    const Severity severity = errors_ != 0 ? Severity::error : Severity::warning;
    diagnostics_.push_back({severity,
                            file_,
                            0,
                            0,
                            {},
                            {},
                            std::to_string(unlisted_) + " more problems are not listed",
                            "mend those above first"});
  }
  return std::move(diagnostics_);
}

}  // namespace panel_dossier
