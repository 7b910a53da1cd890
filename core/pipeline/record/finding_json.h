// Recorded findings and their derivations as JSON, under the names of their members.
#pragma once

#include <functional>
#include <memory>
#include <nlohmann/json_fwd.hpp>

#include "core/pipeline/record/recorded_finding.h"

namespace panel_dossier {

/// Absent values, limits, utilisations and panels are null; so is each of the `origins`, one an input of the
/// derivation, that the derivation has.
nlohmann::ordered_json finding_to_json(const RecordedFinding& finding);

/// Without its hash, which is the hash of this; the origins that the findings have are null.
nlohmann::ordered_json derivation_to_json(const Derivation& derivation);

/// The derivation of that hash. Throws std::runtime_error when there is none.
using DerivationOfHash = std::function<std::shared_ptr<const Derivation>(const HexDigest&)>;

/// Throws std::runtime_error naming the member that is missing or wrong, or in what the finding does not fit the
/// derivation that it names.
RecordedFinding finding_from_json(const nlohmann::ordered_json& json, const DerivationOfHash& derivation_of);

/// Throws std::runtime_error naming the member that is missing or wrong. Takes the hash as stated.
Derivation derivation_from_json(const nlohmann::ordered_json& json, HexDigest hash);

}  // namespace panel_dossier
