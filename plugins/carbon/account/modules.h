// The modules of EN 15978:2011 for one panel.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

extern const CheckDeclaration kProductStageCheck;
extern const CheckDeclaration kTransportCheck;
extern const CheckDeclaration kConstructionCheck;
extern const CheckDeclaration kReplacementCheck;
extern const CheckDeclaration kEndOfLifeCheck;
extern const CheckDeclaration kBeyondBoundaryCheck;

/// The value of every module's finding is its GWP-fossil and GWP-luluc. Value in kg CO2e of those of a1_a3, a5, b4,
/// c1_c4 and d: their GWP-biogenic.
inline constexpr const char* kBiogenicValue = "biogenic";

/// Columns of the tables by material, behind the name.
inline constexpr std::size_t kAmountColumn = 0;     ///< of a1_a3: declared units
inline constexpr std::size_t kTransportColumn = 2;  ///< of a4
inline constexpr std::size_t kWasteColumn = 4;      ///< of a5

/// Each check fills its columns of the account, and gives the panel's total as a finding.

/// GWP-fossil + GWP-luluc of the product stage; GWP-biogenic beside it.
Finding check_product_stage(PanelAccount& account);

/// Mass × Panel_Supply.TransportDistance × the project's factor.
Finding check_transport(PanelAccount& account);

/// C1–C4 as declared, and the packaging's share of A5 in the account; the biogenic carbon returned in C3 and C4 beside.
Finding check_end_of_life(PanelAccount& account);

/// Benefits beyond the boundary, of what is built in, lost as waste and replaced; never added to anything.
Finding check_beyond_boundary(PanelAccount& account);

/// Waste between factory gate and finished panel, packaging, and assembly on site. `upstream` are the findings of
/// a1_a3, a4 and c1_c4 of the same panel, made from the same account before.
Finding check_construction(PanelAccount& account, const std::vector<const Finding*>& upstream);

/// Replacements over `carbon.study_period_years`, and B1–B3 and B5 where declared. `upstream` is the finding a5 of the
/// same panel, which rests on a1_a3, a4 and c1_c4, made from the same account before.
Finding check_replacement(PanelAccount& account, const Finding& upstream);

/// Replacements in a study period of a product with that service life, both in years and above 0: periods of service
/// after the first, a part of one counted whole (EN 15978:2011, 9.3.3: N_R = E[ReqSL / ESL − 1], from memory).
double replacements(double study_period, double service_life);

/// One note for each layer whose material is replaced: the layers between it and the face from which it is reached that
/// are not replaced as often themselves. A layer is reached from outside when it lies outside the studs, from inside
/// when inside of them. None for the layer of the studs, and none at all where no layer holds studs. `times_replaced`
/// counts by index into `Project::materials`.
std::vector<std::string> layers_in_the_way(const Panel& panel, const Project& project,
                                           const std::map<std::size_t, double>& times_replaced);

/// What the modules read, for declarations of checks.
std::vector<CheckInput> product_stage_inputs();
std::vector<CheckInput> transport_inputs();
std::vector<CheckInput> end_of_life_inputs();
std::vector<CheckInput> waste_inputs();
std::vector<CheckInput> service_life_inputs();
/// All that A1–A5 rests on, and all that A–C does; none of it required.
std::vector<CheckInput> upfront_inputs();
std::vector<CheckInput> whole_account_inputs();

/// `carbon.study_period_years`; none, noted, when it is missing or not above 0.
std::optional<double> read_study_period(const Settings& settings, FindingBuilder& builder);
/// Panel_Supply.ServiceLife, else the declaration's reference service life, in years; none, noted, when there is none.
/// A service life longer than the declaration's is an evidence gap.
std::optional<double> read_service_life(const DeclaredMaterial& declared, OpenFinding& finding);
/// `waste_factor` of the declared share; none, noted, when it is missing or no share.
std::optional<double> read_waste_factor(const Material& material, OpenFinding& finding);

/// Share of waste to a finished amount, for a share `waste_rate` of the input that is lost: 1 / (1 − w) − 1.
/// 0 <= waste_rate < 1.
double waste_factor(double waste_rate);

}  // namespace panel_dossier::carbon
