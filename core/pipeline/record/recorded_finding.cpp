#include "core/pipeline/record/recorded_finding.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <utility>

#include "core/intake/document/sha256.h"
#include "core/pipeline/record/finding_json.h"
#include "core/pipeline/record/json.h"
#include "core/pipeline/record/record_fields.h"

namespace panel_dossier {

namespace {

/// Decided from the origin alone, so that a finding is split alike whatever else the build holds.
bool is_own_origin(const Origin& origin) {
  switch (origin.kind) {
    case OriginKind::export_file: return !origin.global_id.empty();
    case OriginKind::input_table: return true;
    case OriginKind::data_table:
    case OriginKind::setting: break;
  }
  return false;
}

/// Takes the origins that stay with the finding out of its inputs.
std::vector<DerivationInput> split_inputs(std::vector<Input> inputs, std::vector<Origin>& own) {
  std::vector<DerivationInput> shared;
  shared.reserve(inputs.size());
  for (Input& input : inputs) {
    DerivationInput& kept = shared.emplace_back();
    kept.name = std::move(input.name);
    kept.symbol = std::move(input.symbol);
    kept.value = std::move(input.value);
    kept.unit = std::move(input.unit);
    if (is_own_origin(input.origin)) {
      own.push_back(std::move(input.origin));
    } else {
      kept.origin = std::move(input.origin);
    }
  }
  own.shrink_to_fit();
  return shared;
}

std::vector<Input> joined_inputs(const std::vector<DerivationInput>& shared, const std::vector<Origin>& own) {
  std::vector<Input> inputs;
  inputs.reserve(shared.size());
  std::size_t next = 0;
  for (const DerivationInput& input : shared) {
    inputs.push_back(
        {input.name, input.symbol, input.value, input.unit, input.origin ? *input.origin : own.at(next++)});
  }
  return inputs;
}

std::string content_digest(const Derivation& derivation) {
  ByteWriter writer;
  writer(derivation);
  const Digest digest = sha256(writer.bytes());
  return {digest.begin(), digest.end()};
}

}  // namespace

FindingRecorder::FindingRecorder() {
  // The first digest of a process sets the library up and leaves a state with its thread: with this one, not with a
  // thread of a pool, which never gives it back.
  sha256({});
}

std::shared_ptr<const Derivation> FindingRecorder::shared(Derivation derivation) {
  const std::string content = content_digest(derivation);
  {
    const std::lock_guard lock(mutex_);
    if (const auto known = by_content_.find(content); known != by_content_.end()) return known->second;
  }
  // Outside of the lock, for this is the long part; another thread may do the same at the same time.
  derivation.hash = derivation_hash(derivation);
  const std::lock_guard lock(mutex_);
  for (DerivationInput& input : derivation.inputs) {
    if (input.origin) texts_.share(*input.origin);
  }
  auto made = std::make_shared<const Derivation>(std::move(derivation));
  made = by_hash_.emplace(made->hash, made).first->second;
  by_content_.emplace(content, made);
  return made;
}

void FindingRecorder::share_texts(std::vector<Origin>& origins) {
  const std::lock_guard lock(mutex_);
  for (Origin& origin : origins) texts_.share(origin);
}

RecordedFinding FindingRecorder::record(Finding finding) {
  RecordedFinding recorded;
  Derivation derivation;
  derivation.check = finding.check;
  derivation.clause = finding.clause;
  derivation.decimals = finding.decimals;
  derivation.inputs = split_inputs(std::move(finding.inputs), recorded.origins);
  share_texts(recorded.origins);
  derivation.steps = std::move(finding.steps);
  derivation.values = std::move(finding.values);
  derivation.notes = std::move(finding.notes);
  derivation.tables = std::move(finding.tables);
  derivation.series = std::move(finding.series);
  derivation.bar_charts = std::move(finding.bar_charts);
  derivation.drawings = std::move(finding.drawings);
  try {
    recorded.derivation = shared(std::move(derivation));
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("check '" + finding.check + "': " + error.what());
  }
  recorded.check = std::move(finding.check);
  recorded.title = std::move(finding.title);
  recorded.panel = std::move(finding.panel);
  recorded.value = std::move(finding.value);
  recorded.unit = std::move(finding.unit);
  recorded.limit = std::move(finding.limit);
  recorded.relation = finding.relation;
  recorded.utilisation = finding.utilisation;
  recorded.verdict = finding.verdict;
  recorded.reason = std::move(finding.reason);
  recorded.basis = finding.basis;
  recorded.clause = std::move(finding.clause);
  return recorded;
}

std::vector<RecordedFinding> FindingRecorder::record_all(std::vector<Finding> findings) {
  std::vector<RecordedFinding> recorded;
  recorded.reserve(findings.size());
  for (Finding& finding : findings) recorded.push_back(record(std::move(finding)));
  return recorded;
}

Finding recorded_result(const RecordedFinding& recorded) {
  Finding finding;
  finding.check = recorded.check;
  finding.title = recorded.title;
  finding.panel = recorded.panel;
  finding.value = recorded.value;
  finding.unit = recorded.unit;
  finding.limit = recorded.limit;
  finding.relation = recorded.relation;
  finding.utilisation = recorded.utilisation;
  finding.decimals = recorded.derivation->decimals;
  finding.verdict = recorded.verdict;
  finding.reason = recorded.reason;
  finding.basis = recorded.basis;
  finding.clause = recorded.clause;
  finding.values = recorded.derivation->values;
  std::copy_if(recorded.derivation->tables.begin(), recorded.derivation->tables.end(),
               std::back_inserter(finding.tables), [](const Table& table) { return !table.id.empty(); });
  return finding;
}

Finding whole_finding(const RecordedFinding& recorded) {
  const Derivation& derivation = *recorded.derivation;
  Finding finding = recorded_result(recorded);
  finding.inputs = joined_inputs(derivation.inputs, recorded.origins);
  finding.steps = derivation.steps;
  finding.notes = derivation.notes;
  finding.tables = derivation.tables;
  finding.series = derivation.series;
  finding.bar_charts = derivation.bar_charts;
  finding.drawings = derivation.drawings;
  return finding;
}

HexDigest derivation_hash(const Derivation& derivation) {
  return to_hex(sha256(canonical_json(derivation_to_json(derivation))));
}

}  // namespace panel_dossier
