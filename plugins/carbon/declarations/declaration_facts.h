// Facts of a material's environmental declaration: document, validity, unit and kind of data. What its file states
// comes first, the export's Panel_EnvironmentalDeclaration beside it, and the two must agree.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/declarations/declared_material.h"

namespace panel_dossier::carbon {

/// `material 'M' has no Panel_EnvironmentalDeclaration.PROPERTY`.
std::string lacks(const Material& material, std::string_view property);

/// Largest share by which a figure of the export may differ from that of the file: declarations print three digits,
/// and the last of them may be rounded.
inline constexpr double kAgreement = 0.005;
/// True for two figures that are the same but for that rounding.
bool agree(double a, double b);

/// The kind of data behind a declaration.
enum class DataKind { specific, average, generic };
/// From the file or the property `DataKind`; none when neither says so in a known word.
std::optional<DataKind> data_kind(const DeclaredMaterial& declared);
std::string_view to_string(DataKind kind);

/// The day on which the declaration runs out, as YYYY-MM-DD: the earlier of file and export; a year ends on its last
/// day. None when neither gives one; a text that is no date is passed on as it is.
std::optional<Sourced<std::string>> valid_until(const DeclaredMaterial& declared);

/// Whether document, validity, unit and thickness are listed as inputs. One finding of a panel lists them; the others
/// check them as well but refer to it, or its sheet would repeat the same lines for each module.
enum class Listing { whole, amount_only };

/// Checks document, validity on `project.assessment_date`, product, geography and scenario, noting gaps in `finding`.
void check_declaration(const Settings& settings, const DeclaredMaterial& declared, Listing listing,
                       OpenFinding& finding);

/// The same, and unit and plausibility, of the material in `row`. Gives the amount in units of kg, m3, m2 or piece.
std::optional<double> read_declared_units(const PanelAccount& account, std::size_t row, Listing listing,
                                          OpenFinding& finding);

/// What `read_declared_units` reads, for declarations of checks.
std::vector<CheckInput> declared_amount_inputs();

/// All of those inputs, each once: required where one of them is.
std::vector<CheckInput> merged_inputs(const std::vector<std::vector<CheckInput>>& lists);
/// The same inputs, none of them required: what a check rests on through the findings of others.
std::vector<CheckInput> optional_inputs(std::vector<CheckInput> inputs);

/// WasteRateA5 as declared, the share of the material bought that is lost, without checking its range; a gap when the
/// declaration lacks it.
std::optional<double> read_waste_rate(const Material& material, OpenFinding& finding);

}  // namespace panel_dossier::carbon
