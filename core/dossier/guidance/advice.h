// Rows of guidance on the subjects of this project: which hold, what they say, what is missing to say it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/guidance/subjects.h"
#include "core/pipeline/guidance/guidance_table.h"

namespace panel_dossier {

/// What a row says of all subjects that it says the same of.
struct Advice {
  std::size_t row = 0;  ///< index into the rows
  std::string text;     ///< the sentence; where a fact is missing: of what, which, and who can supply it
  std::vector<std::string> missing = {};   ///< keys of the facts that it lacks, each once
  std::vector<std::size_t> subjects = {};  ///< ascending indices into the subjects
  std::vector<std::size_t> panels = {};    ///< of them, ascending
  std::optional<double> interval_years = {};
  /// The interval as its fact has it, where that is no number of years from a month to 200 years; else empty.
  std::string unread_interval = {};
};

/// Looks facts up. All that it is given must outlive it.
class FactSource {
 public:
  FactSource(const Settings& settings, const ResultsDocument& results) : settings_(settings), results_(results) {}

  /// The values of the fact; none where it is not given.
  std::vector<std::string> values(const Subject& subject, std::string_view key) const;

  bool holds(const GuidanceTerm& term, const Subject& subject) const;
  /// Whether one of them holds.
  bool holds(const GuidanceAlternatives& terms, const Subject& subject) const;
  bool holds(const GuidanceCondition& condition, const Subject& subject) const;

 private:
  const Settings& settings_;
  const ResultsDocument& results_;

  std::vector<std::string> of_finding(const Subject& subject, std::string_view key) const;
  std::vector<std::string> of_property(const Subject& subject, std::string_view key) const;
};

/// The text with its facts in place of their keys. Keys of facts that are not given are added to `missing`.
std::string filled(std::string_view text, const Subject& subject, const FactSource& facts,
                   std::vector<std::string>& missing);

/// Every sentence that holds, in the order of the rows, then of the subjects.
std::vector<Advice> advice_on(const std::vector<GuidanceRow>& rows, const std::vector<Subject>& subjects,
                              const FactSource& facts);

/// `not stated: contact of the maker of the product (…)`: what stands in place of a sentence.
std::string missing_in_words(const std::vector<std::string>& keys);

}  // namespace panel_dossier
