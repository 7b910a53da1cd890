// The members of recorded findings and derivations, for the compact form.
#pragma once

#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/record/recorded_finding.h"

namespace panel_dossier {

void fields(auto& archive, EitherOf<DerivationInput> auto& input) {
  archive(input.name, input.symbol, input.value, input.unit, input.origin);
}

/// Without its hash.
void fields(auto& archive, EitherOf<Derivation> auto& derivation) {
  archive(derivation.check, derivation.clause, derivation.decimals, derivation.inputs, derivation.steps,
          derivation.values, derivation.notes, derivation.tables, derivation.series, derivation.bar_charts,
          derivation.drawings);
}

/// Without its derivation.
void fields(auto& archive, EitherOf<RecordedFinding> auto& finding) {
  archive(finding.check, finding.title, finding.panel, finding.value, finding.unit, finding.limit, finding.relation,
          finding.utilisation, finding.verdict, finding.reason, finding.basis, finding.clause, finding.origins);
}

}  // namespace panel_dossier
