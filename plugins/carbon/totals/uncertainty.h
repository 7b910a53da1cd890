// How far the figures behind a total may be off, by the kind of data of each declaration.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding_builder.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// DataKind and the settings `carbon.uncertainty_…`, for declarations of checks.
std::vector<CheckInput> uncertainty_inputs();

/// The shares by which the figures of the materials of one panel may be off: settings `carbon.uncertainty_specific`,
/// `_average` and `_generic`, recorded as inputs of the finding. The program has none of its own.
class Uncertainty {
 public:
  /// A negative share, and a declaration without its kind of data, are noted: the first as missing.
  Uncertainty(const PanelAccount& account, FindingBuilder& builder);

  /// Sum over the materials of u · |figure|, in kg, as if all were off the same way; none where a share is not known.
  std::optional<double> kg(const std::function<double(const MaterialAccount&)>& figure) const;

  /// Why a target cannot be judged without it, in words for a reason: data that are generic, or of a kind that nobody
  /// states, and no share for them. Empty where the range is known or nothing asks for it.
  const std::string& needed() const { return needed_; }

 private:
  const PanelAccount& account_;
  std::vector<double> shares_;  ///< by material of the account; empty where one is not known
  std::string needed_;
};

}  // namespace panel_dossier::carbon
