// What a check against requirements found, for people and for spreadsheets.
#include <array>
#include <string_view>

#include "core/api/support/words.h"
#include "core/intake/ids/ids_check.h"

namespace panel_dossier {

namespace {

// A fault of the export's settings repeats itself in each entity; the table holds all of them.
constexpr std::size_t kShownOfSpecification = 20;

std::string count_words(std::size_t count, const char* what) {
  return std::to_string(count) + " " + what;
}

std::string heading(const IdsSpecificationResult& result) {
  std::string text = result.holds ? "holds: " : "fails: ";
  text += result.name;
  if (!result.identifier.empty()) text += " (" + result.identifier + ")";
  text += ": " + count_words(result.applicable, result.applicable == 1 ? "entity" : "entities");
  if (result.failed != 0) text += ", " + count_words(result.failed, "of them wrong");
  if (!result.remark.empty()) text += "; " + result.remark;
  return text + "\n";
}

}  // namespace

std::string ids_report_text(const IdsReport& report) {
  std::string text = report.title + "\n";
  auto failure = report.failures.begin();
  std::size_t holding = 0;
  for (std::size_t i = 0; i < report.specifications.size(); ++i) {
    const IdsSpecificationResult& result = report.specifications[i];
    text += heading(result);
    if (result.holds) ++holding;
    std::size_t shown = 0;
    for (; failure != report.failures.end() && failure->specification == i; ++failure) {
      if (++shown > kShownOfSpecification) continue;
      text += "  line " + std::to_string(failure->line) + ": " + failure->entity;
      if (!failure->global_id.empty()) text += " " + failure->global_id;
      if (!failure->name.empty()) text += " '" + failure->name + "'";
      text += ": " + failure->found + "; wanted: " + failure->requirement + "\n";
    }
    if (shown > kShownOfSpecification) text += "  and " + std::to_string(shown - kShownOfSpecification) + " more\n";
  }
  if (report.unlisted != 0) text += std::to_string(report.unlisted) + " failures are not listed\n";
  return text + std::to_string(holding) + " of " + count_words(report.specifications.size(), "specifications hold\n");
}

std::string ids_report_csv(const IdsReport& report) {
  std::string text = "specification,identifier,line,entity,global_id,name,requirement,found\n";
  for (const IdsFailure& failure : report.failures) {
    const IdsSpecificationResult& result = report.specifications[failure.specification];
    text += csv_line({result.name, result.identifier, std::to_string(failure.line), failure.entity, failure.global_id,
                      failure.name, failure.requirement, failure.found});
  }
  for (const IdsSpecificationResult& result : report.specifications) {
    if (result.holds || result.applicable != 0) continue;
    text += csv_line({result.name, result.identifier, "", "", "", "", "at least one such entity", result.remark});
  }
  return text;
}

}  // namespace panel_dossier
