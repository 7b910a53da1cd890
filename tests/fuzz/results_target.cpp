#include <optional>
#include <stdexcept>
#include <string>

#include "core/trace/results_reader.h"
#include "tests/fuzz/targets.h"

namespace panel_dossier::fuzz {

namespace {

std::optional<ResultsDocument> document_of(std::string_view bytes) {
  try {
    return results_from_json(bytes);
  } catch (const std::runtime_error&) {
    return std::nullopt;
  }
}

}  // namespace

void read_results(std::string_view bytes) {
  const auto document = document_of(bytes);
  if (!document) return;
  const std::string written = to_json(*document);
  const auto again = document_of(written);
  if (!again || to_json(*again) != written) {
    throw std::logic_error("what is read of results.json reads back as it is written");
  }
}

}  // namespace panel_dossier::fuzz
