// The modules of EN 15978:2011 for one panel.
#pragma once

#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

inline constexpr std::string_view kTransportByMaterial = "By material";
inline constexpr std::string_view kWasteByMaterial = "Waste by material, without biogenic carbon";

/// Each check fills its columns of the account, and gives the panel's total as a finding.

/// `carbon.a1_a3`: GWP-fossil + GWP-luluc of the product stage; GWP-biogenic beside it.
Finding check_product_stage(PanelAccount& account);

/// `carbon.a4`: mass × Panel_Supply.TransportDistance × the project's factor.
Finding check_transport(PanelAccount& account);

/// `carbon.c1_c4`: GWP-total as declared; the biogenic carbon returned in C3 and C4 beside it.
Finding check_end_of_life(PanelAccount& account);

/// `carbon.d`: benefits beyond the boundary, never added to anything.
Finding check_beyond_boundary(PanelAccount& account);

/// `carbon.a5`: waste between factory gate and finished panel, and assembly on site. `upstream` are the findings of
/// a1_a3, a4 and c1_c4 of the same panel, made from the same account before.
Finding check_construction(PanelAccount& account, const std::vector<const Finding*>& upstream);

/// `carbon.b4`: replacements over `carbon.study_period_years`, and B1–B3 and B5 where declared. `upstream` is the
/// finding a5 of the same panel, which rests on a1_a3, a4 and c1_c4, made from the same account before.
Finding check_replacement(PanelAccount& account, const Finding& upstream);

/// Replacements in a study period of a product with that service life, both in years and above 0: periods of service
/// after the first, a part of one counted whole (EN 15978:2011, 9.3.3: N_R = E[ReqSL / ESL − 1], from memory).
double replacements(double study_period, double service_life);

/// Share of waste to a finished amount, for a share `waste_rate` of the input that is lost: 1 / (1 − w) − 1.
/// 0 <= waste_rate < 1.
double waste_factor(double waste_rate);

}  // namespace panel_dossier::carbon
