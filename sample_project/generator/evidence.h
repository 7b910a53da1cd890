// The evidence documents that the sample export names.
#pragma once

#include <string_view>
#include <vector>

namespace sample_export {

struct EvidenceDocument {
  std::string_view id;
  std::string_view name;
  std::string_view location;  ///< relative to the project folder
};

const std::vector<EvidenceDocument>& evidence_documents();

}  // namespace sample_export
