// Environmental product declarations as the export carries them: Panel_EnvironmentalDeclaration of a material.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/panel.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/carbon/account.h"
#include "plugins/carbon/amounts.h"
#include "plugins/carbon/open_finding.h"

namespace panel_dossier::carbon {

/// An amount in the declared unit, or why the declaration does not fit it.
struct DeclaredAmount {
  std::optional<double> units;
  std::string gap;  ///< empty when `units` is there
};

/// Converts to declared units: kg from mass, m3 from volume, m2 from volume and `thickness_m`, piece from the count.
/// `unit` is one of these four words. `thickness_m` is none when the declaration gives none.
DeclaredAmount declared_amount(const MaterialAmount& amount, std::string_view unit, std::optional<double> thickness_m);

/// Whether document, validity, unit and thickness are listed as inputs. One finding of a panel lists them; the others
/// check them as well but refer to it, or its sheet would repeat the same lines for each module.
enum class Listing { whole, amount_only };

/// Reads the declaration of the material in `row` of the account and checks document, validity on
/// `project.assessment_date` and unit, noting gaps in `finding`. Gives the amount in declared units.
std::optional<double> read_declared_units(const PanelAccount& account, std::size_t row, Listing listing,
                                          OpenFinding& finding);

/// A declared value: its property in the export, and how it is written for a reader.
struct Indicator {
  std::string_view property;
  std::string_view name;
};

inline constexpr Indicator kFossilA1A3{"GwpFossilA1A3", "GWP-fossil, A1–A3"};
inline constexpr Indicator kLulucA1A3{"GwpLulucA1A3", "GWP-luluc (land use and its change), A1–A3"};
inline constexpr Indicator kBiogenicA1A3{"GwpBiogenicA1A3", "GWP-biogenic, A1–A3"};
inline constexpr Indicator kTotalC1{"GwpTotalC1", "GWP-total, C1"};
inline constexpr Indicator kTotalC2{"GwpTotalC2", "GWP-total, C2"};
inline constexpr Indicator kTotalC3{"GwpTotalC3", "GWP-total, C3"};
inline constexpr Indicator kTotalC4{"GwpTotalC4", "GWP-total, C4"};
inline constexpr Indicator kTotalD{"GwpTotalD", "GWP-total, D"};

/// The declared value in kg CO2e per declared unit, any sign; a gap when the declaration lacks it.
std::optional<double> read_indicator(const Material& material, const Indicator& indicator, OpenFinding& finding);

/// WasteRateA5 as declared, the share of the material bought that is lost, without checking its range; a gap when the
/// declaration lacks it.
std::optional<double> read_waste_rate(const Material& material, OpenFinding& finding);

}  // namespace panel_dossier::carbon
