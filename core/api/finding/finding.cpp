#include "core/api/finding/finding.h"

namespace panel_dossier {

// Many members: compiled here once instead of in every source that holds one.
Finding::Finding() = default;
Finding::Finding(const Finding&) = default;
Finding::Finding(Finding&&) noexcept = default;
Finding& Finding::operator=(const Finding&) = default;
Finding& Finding::operator=(Finding&&) noexcept = default;
Finding::~Finding() = default;

std::string_view to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass: return "pass";
    case Verdict::fail: return "fail";
    case Verdict::evidence_needed: return "evidence needed";
    case Verdict::not_assessed: return "not assessed";
    case Verdict::information: break;
  }
  return "information";
}

std::string_view to_string(Basis basis) {
  switch (basis) {
    case Basis::calculation: return "calculation";
    case Basis::test_evidence: return "test evidence";
    case Basis::declared: break;
  }
  return "declared";
}

std::string_view to_string(Relation relation) {
  switch (relation) {
    case Relation::none: return "none";
    case Relation::at_most: return "at most";
    case Relation::at_least: return "at least";
    case Relation::equals: break;
  }
  return "equals";
}

}  // namespace panel_dossier
