// Biogenic carbon in the wood of a panel.
#pragma once

#include <optional>
#include <string>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/support/data_table.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// Constants of EN 16449:2014.
struct WoodCarbon {
  double carbon_fraction = 0.0;  ///< kg carbon per kg of dry wood
  double co2_per_carbon = 0.0;   ///< kg carbon dioxide per kg carbon: ratio of the molar masses
};

/// Carbon dioxide that corresponds to the biogenic carbon in wood, in kg: co2_per_carbon · cf · ρ_ω · V_ω / (1 + ω)
/// (EN 16449:2014, formula 1). `mass_kg` = ρ_ω · V_ω at moisture content ω, given as a share (0.12 for 12 %), ω >= 0.
double stored_carbon_dioxide_kg(const WoodCarbon& constants, double mass_kg, double moisture_content);

/// The constants of `biogenic_carbon.csv`; none where a row lacks.
std::optional<WoodCarbon> wood_carbon(const DataTable& table);

/// The moisture content at which the density is stated goes with the mass; the content in use is the next best.
std::optional<Sourced<double>> moisture_of(const Material& material);

/// Category `wood`, by which the intake names all that is wood, or a moisture content in Panel_Timber.
bool is_wood(const Material& material);

/// The row of `kinds`, plausible_declarations.csv, that holds for the material: its category or, where that is none of
/// them, `wood` where it is wood. Empty where nothing tells what the material is.
std::string kind_of(const Material& material, const DataTable& kinds);

/// Why it cannot be told what the material is, and what to do; empty where it can, and for air.
std::string unknown_kind(const Material& material, const DataTable& kinds);

extern const CheckDeclaration kBiogenicStorageCheck;

/// Positive, apart from every total. Call after `check_product_stage` on the same account.
Finding check_biogenic_storage(const PanelAccount& account);

}  // namespace panel_dossier::carbon
