// Every formula that the sample prints, computed from the numbers printed with it.
#include <catch2/catch.hpp>
#include <cstddef>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/testing/formula.h"
#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using nlohmann::json;

namespace {

Value value_from(const json& value) {
  if (value.is_number()) return value.get<double>();
  return value.is_string() ? Value(value.get<std::string>()) : Value();
}

/// What of the findings of a derivation its formulas speak of.
Finding finding_from(const json& source) {
  Finding finding;
  finding.check = source.at("check");
  for (const json& input : source.at("inputs")) {
    finding.inputs.push_back(
        {input.at("name"), input.at("symbol"), value_from(input.at("value")), input.at("unit"), {}});
  }
  for (const json& step : source.at("steps")) {
    finding.steps.push_back(
        {step.at("name"), step.at("symbol"), value_from(step.at("value")), step.at("unit"), step.at("formula")});
  }
  for (const json& table : source.at("tables")) {
    Table read{table.at("title"), {}, {}};
    for (const json& column : table.at("columns")) read.columns.push_back({column.at("name"), column.at("unit")});
    for (const json& cells : table.at("rows")) {
      std::vector<Value>& row = read.rows.emplace_back();
      for (const json& cell : cells) row.push_back(value_from(cell));
    }
    finding.tables.push_back(std::move(read));
  }
  return finding;
}

/// Tries the formulas of derivations, and keeps the first fault of each check and formula: the numbers of the others
/// say the same.
class FormulaTrial {
 public:
  void try_derivation(const json& source, const std::string& hash) {
    const Finding finding = finding_from(source);
    for (const Step& step : finding.steps) tried_ += step.formula.empty() ? 0 : 1;
    for (const std::string& fault : testing::formula_faults(finding)) {
      faults_.emplace(fault.substr(0, fault.find("': ")), hash + ": " + fault);
    }
  }

  std::size_t tried() const { return tried_; }
  const std::map<std::string, std::string>& faults() const { return faults_; }

 private:
  std::size_t tried_ = 0;
  std::map<std::string, std::string> faults_;
};

}  // namespace

TEST_CASE("Every formula of the sample has the one form and gives the number printed beside it", "[outputs]") {
  FormulaTrial trial;
  for (const auto& [hash, derivation] : sample_results().at("derivations").items()) {
    trial.try_derivation(derivation, hash);
  }
  CHECK(trial.tried() > 1000);
  for (const auto& [formula, fault] : trial.faults()) FAIL_CHECK(fault);
}
