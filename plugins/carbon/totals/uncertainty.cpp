#include "plugins/carbon/totals/uncertainty.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <map>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/declarations/declaration_facts.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::array kDataKinds{DataKind::specific, DataKind::average, DataKind::generic};

std::string uncertainty_key(DataKind kind) {
  return "carbon.uncertainty_" + std::string(to_string(kind));
}

/// Share by which figures of each kind of data may be off, as far as the settings give one.
std::map<DataKind, double> read_uncertainties(const Settings& settings, FindingBuilder& builder) {
  std::map<DataKind, double> shares;
  for (const DataKind kind : kDataKinds) {
    const std::string key = uncertainty_key(kind);
    const auto given = settings.number(key);
    if (!given) continue;
    const auto share = builder.number("uncertainty of " + std::string(to_string(kind)) + " data", "u", "", given, {});
    if (share && *share < 0.0) builder.missing("setting '" + key + "' is negative");
    if (share) shares[kind] = *share;
  }
  return shares;
}

}  // namespace

std::vector<CheckInput> uncertainty_inputs() {
  std::vector<CheckInput> inputs{optional_property(std::string(kDeclarationSet) + ".DataKind")};
  for (const DataKind kind : kDataKinds) inputs.push_back(optional_setting(uncertainty_key(kind)));
  return inputs;
}

Uncertainty::Uncertainty(const PanelAccount& account, FindingBuilder& builder) : account_(account) {
  const std::map<DataKind, double> given = read_uncertainties(account.inputs.settings, builder);
  bool any_generic = false;
  std::string unknown;  // the first material of which the share is not known
  std::string why;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const auto kind = data_kind(account.declared(row));
    const std::string of = "'" + account.material(row).name + "'";
    any_generic = any_generic || !kind || *kind == DataKind::generic;
    const auto share = kind ? given.find(*kind) : given.end();
    if (share != given.end()) {
      shares_.push_back(share->second);
    } else if (unknown.empty()) {
      unknown = of;
      why = kind ? "the data of " + of + " are " + std::string(to_string(*kind)) + " and setting '" +
                       uncertainty_key(*kind) + "' is missing"
                 : "the declaration of " + of +
                       " does not say whether its data are specific, average or generic "
                       "(Panel_EnvironmentalDeclaration.DataKind)";
    }
  }
  if (unknown.empty()) return;
  shares_.clear();
  if (any_generic) needed_ = "a target on generic data needs their uncertainty: " + why;
  if (given.empty()) return;
  builder.note("No range of uncertainty: the declaration of " + unknown +
               " does not say whether its data are specific, average or generic, or the settings give no share.");
}

std::optional<double> Uncertainty::kg(const std::function<double(const MaterialAccount&)>& figure) const {
  if (shares_.empty() || shares_.size() != account_.materials.size()) return std::nullopt;
  ExactSum range;
  for (std::size_t row = 0; row < shares_.size(); ++row) {
    range.add(std::abs(figure(account_.materials[row])) * shares_[row]);
  }
  return range.total();
}

}  // namespace panel_dossier::carbon
