// A finding as it is recorded: what its derivation shares with other findings stands once, under a hash.
#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/pipeline/record/origin_texts.h"

namespace panel_dossier {

/// SHA-256 as 64 lower-case hexadecimal digits.
using HexDigest = std::string;

struct DerivationInput {
  std::string name;
  std::string symbol;
  Value value;
  std::string unit;
  std::optional<Origin> origin;  ///< none where each finding has its own
};

/// What of a finding does not depend on where the panel's own inputs stood. Members as in Finding.
struct Derivation {
  HexDigest hash;  ///< over the canonical form of the other members; as stated, where it was read
  std::string check;
  std::string clause;
  int decimals = 2;
  std::vector<DerivationInput> inputs;
  std::vector<Step> steps;
  std::vector<NamedValue> values;
  std::vector<std::string> notes;
  std::vector<Table> tables;
  std::vector<Series> series;
  std::vector<BarChart> bar_charts;
  std::vector<Drawing> drawings;
};

/// The panel's or the project's own part of a finding, members as in Finding, and the derivation that it shares.
struct RecordedFinding {
  std::string check;
  std::string title;
  std::string panel;  ///< GlobalId, or empty for a finding of the whole project
  Value value;
  std::string unit;
  Value limit;
  Relation relation = Relation::none;
  std::optional<double> utilisation;
  Verdict verdict = Verdict::not_assessed;
  std::string reason;
  Basis basis = Basis::calculation;
  std::string clause;
  std::shared_ptr<const Derivation> derivation;  ///< never null in the findings of a document
  std::vector<Origin> origins;  ///< in the order of the derivation's inputs, of those that have none there
};

/// Splits findings. Equal derivations of one recorder are one object. May be used by several threads at once.
class FindingRecorder {
 public:
  FindingRecorder();
  /// An origin stays with the finding where it is of an entity of the export that has a GlobalId, or a row of library
  /// or records: what equal panels do not share. All others (data tables, settings, materials of the export) go with
  /// the derivation. Throws std::runtime_error naming the check whose derivation holds a number that is not finite.
  RecordedFinding record(Finding finding);
  /// All of them in their order; each is freed as it is recorded.
  std::vector<RecordedFinding> record_all(std::vector<Finding> findings);
  /// The one object of that content, whatever hash is stated. Throws std::runtime_error as `derivation_hash` does.
  std::shared_ptr<const Derivation> shared(Derivation derivation);
  /// Has the origins share their texts with all others of this recorder.
  void share_texts(std::vector<Origin>& origins);

 private:
  using Known = std::unordered_map<std::string, std::shared_ptr<const Derivation>>;

  std::mutex mutex_;  ///< of all below
  OriginTexts texts_;
  Known by_content_;  ///< under the digest of the compact form, which costs a tenth of the canonical one
  Known by_hash_;     ///< what differs in its bytes may be equal in canonical form: 0 and -0
};

/// The finding that was recorded, equal in every member.
Finding whole_finding(const RecordedFinding& recorded);

/// As `result_only` of that finding.
Finding recorded_result(const RecordedFinding& recorded);

/// SHA-256 over the canonical JSON (RFC 8785) of the derivation. Throws std::runtime_error when a number is not finite.
HexDigest derivation_hash(const Derivation& derivation);

}  // namespace panel_dossier
