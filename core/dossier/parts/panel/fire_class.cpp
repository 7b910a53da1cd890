#include "core/dossier/parts/panel/fire_class.h"

#include <algorithm>
#include <string_view>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/dossier/layout/marks.h"
#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

std::string value_in_words(const RecordedFinding& finding) {
  return format_value(finding.value, finding.unit, finding.derivation->decimals);
}

bool separates(const RecordedFinding* finding) {
  return finding != nullptr && finding->verdict == Verdict::pass;
}

bool carries_or_need_not(const RecordedFinding* finding) {
  return finding != nullptr && (finding->verdict == Verdict::pass || finding->verdict == Verdict::information);
}

/// Whether no text that both findings read under one name, such as the report, differs between them.
bool rest_on_the_same(const RecordedFinding& one, const RecordedFinding& other) {
  for (const DerivationInput& input : one.derivation->inputs) {
    if (!std::holds_alternative<std::string>(input.value)) continue;
    for (const DerivationInput& of_other : other.derivation->inputs) {
      const bool is_text = std::holds_alternative<std::string>(of_other.value);
      if (is_text && of_other.name == input.name && of_other.value != input.value) return false;
    }
  }
  return true;
}

}  // namespace

bool FireClass::is_proved() const {
  return separates(separating) && carries_or_need_not(bearing);
}

std::string FireClass::in_words() const {
  std::string separates_for = value_in_words(*separating);
  if (bearing->verdict != Verdict::pass) return separates_for;
  const std::string bears_for = value_in_words(*bearing);
  // A class of the wall as a whole is one test's, for one time: R 60 and EI 60 are REI 60, R 60 and EI 30 stay two.
  constexpr std::string_view kBears = "R ";
  constexpr std::string_view kSeparates = "EI ";
  const bool one_class = separating->basis == bearing->basis && rest_on_the_same(*separating, *bearing) &&
                         bears_for.starts_with(kBears) && separates_for.starts_with(kSeparates) &&
                         bears_for.substr(kBears.size()) == separates_for.substr(kSeparates.size());
  return one_class ? "R" + separates_for : separates_for + ", " + bears_for;
}

std::vector<std::string> FireClass::not_shown() const {
  std::vector<std::string> texts;
  if (!separates(separating))
    texts.push_back(separating == nullptr ? "no finding on separating in fire" : separating->title);
  if (!carries_or_need_not(bearing))
    texts.push_back(bearing == nullptr ? "no finding on carrying load in fire" : bearing->title);
  return texts;
}

Verdict FireClass::verdict() const {
  if (separating == nullptr || bearing == nullptr) return Verdict::not_assessed;
  return urgency(bearing->verdict) > urgency(separating->verdict) ? bearing->verdict : separating->verdict;
}

std::vector<const Evidence*> papers_of(const Project& project, const FireClass& shown) {
  std::vector<const Evidence*> papers;
  for (const RecordedFinding* finding : {shown.separating, shown.bearing}) {
    if (finding == nullptr) continue;
    for (const DerivationInput& input : finding->derivation->inputs) {
      const auto* id = std::get_if<std::string>(&input.value);
      const Evidence* document = id == nullptr ? nullptr : find_evidence(project, *id);
      if (document != nullptr && std::find(papers.begin(), papers.end(), document) == papers.end())
        papers.push_back(document);
    }
  }
  return papers;
}

FireClass fire_class_of(const BuildSummary& build, const PanelSummary& panel) {
  return {finding_of_role(build, panel.findings, role::kFireResistance),
          finding_of_role(build, panel.findings, role::kBearingInFire)};
}

}  // namespace panel_dossier
