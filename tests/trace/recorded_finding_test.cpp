#include "core/pipeline/record/recorded_finding.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>

#include "core/api/testing/finding_difference.h"
#include "tests/trace/test_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The finding with a single input, of that origin.
Finding finding_of(const Origin& origin) {
  Finding finding = sample_finding("id-of-P-01");
  finding.inputs = {{"width", "b", 3.0, "m", origin}};
  return finding;
}

Origin origin_of_kind(OriginKind kind) {
  Origin origin;
  origin.kind = kind;
  origin.table = "a table";
  origin.row = "7";
  origin.key = "a.key";
  return origin;
}

bool stays_with_finding(const Origin& origin) {
  const RecordedFinding recorded = FindingRecorder().record(finding_of(origin));
  const bool in_derivation = recorded.derivation->inputs.back().origin.has_value();
  CHECK(recorded.origins.size() == (in_derivation ? 0 : 1));
  return !in_derivation;
}

HexDigest hash_after(void (*change)(Finding&)) {
  Finding finding = sample_finding("id-of-P-01");
  change(finding);
  return FindingRecorder().record(finding).derivation->hash;
}

}  // namespace

TEST_CASE("A recorded finding gives the whole finding back") {
  Finding finding = sample_finding("id-of-P-01");
  finding.inputs.push_back({"height", "h", 2.8, "m", origin_of_kind(OriginKind::input_table)});
  finding.inputs.push_back({"factor", "k", 1.1, "", origin_of_kind(OriginKind::data_table)});
  finding.decimals = 3;
  finding.values = {{"batch", std::string("4"), ""}};
  finding.basis = Basis::declared;
  const Finding whole = whole_finding(FindingRecorder().record(finding));
  CHECK(finding_difference(whole, finding).empty());
  CHECK(whole.inputs[3].origin.global_id == "id-of-P-01");
  CHECK(finding_difference(recorded_result(FindingRecorder().record(finding)), result_only(finding)).empty());
  CHECK_FALSE(finding_difference(result_only(finding), finding).empty());
}

TEST_CASE("An origin stays with the finding where it is of an entity with a GlobalId or a row of library or records") {
  CHECK(stays_with_finding(export_origin_of("IfcWall", "id-of-wall", 12)));
  CHECK(stays_with_finding(origin_of_kind(OriginKind::input_table)));
  CHECK_FALSE(stays_with_finding(export_origin("IfcMaterial", 7)));
  CHECK_FALSE(stays_with_finding(origin_of_kind(OriginKind::data_table)));
  CHECK_FALSE(stays_with_finding(origin_of_kind(OriginKind::setting)));
}

TEST_CASE("Findings that differ in panel, result and own origins share one derivation") {
  FindingRecorder recorder;
  const RecordedFinding first = recorder.record(finding_of(export_origin_of("IfcWall", "one", 12)));
  Finding other = finding_of(export_origin_of("IfcWall", "another", 120));
  other.panel = "id-of-P-02";
  other.title = "Another title";
  other.value = 0.2;
  other.limit = 0.3;
  other.verdict = Verdict::pass;
  other.reason = {};
  const RecordedFinding second = recorder.record(other);
  CHECK(first.derivation == second.derivation);
  CHECK(finding_difference(whole_finding(second), other).empty());
}

TEST_CASE("A last digit, a shared origin, a note or a drawing makes another derivation") {
  const HexDigest hash = hash_after([](Finding&) {});
  CHECK(hash == hash_after([](Finding&) {}));
  CHECK(hash != hash_after([](Finding& finding) { finding.steps[0].value = 1e-15; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.inputs[0].origin.line += 1; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.inputs[2].origin.key = "thermal.other"; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.inputs[0].origin.global_id = "id"; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.notes.emplace_back("another"); }));
  CHECK(hash != hash_after([](Finding& finding) { finding.drawings[0].texts[0].text = "other"; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.decimals = 1; }));
  CHECK(hash != hash_after([](Finding& finding) { finding.clause = "other"; }));
}

TEST_CASE("A derivation's hash is over its content alone") {
  Derivation derivation = *FindingRecorder().record(sample_finding("id-of-P-01")).derivation;
  const HexDigest hash = std::exchange(derivation.hash, {});
  CHECK(derivation_hash(derivation) == hash);
}
