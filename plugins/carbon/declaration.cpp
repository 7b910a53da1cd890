#include "plugins/carbon/declaration.h"

#include <cmath>

#include "core/api/evidence.h"
#include "core/api/finding_builder.h"
#include "core/api/iso_date.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kSet = "Panel_EnvironmentalDeclaration";

std::string lacks(const Material& material, std::string_view property) {
  return "material '" + material.name + "' has no " + std::string(kSet) + "." + std::string(property);
}

void check_document(const Project& project, const Material& material, Listing listing, OpenFinding& finding) {
  const auto id = material.properties.text(kSet, "DocumentId");
  if (!id || id->value.empty()) {
    finding.evidence_gap(lacks(material, "DocumentId"));
    return;
  }
  if (listing == Listing::whole) finding.builder().text("environmental declaration of '" + material.name + "'", id, {});
  const Evidence* evidence = find_evidence(project, id->value);
  if (evidence == nullptr) {
    finding.evidence_gap("declaration '" + id->value + "' of material '" + material.name +
                         "' is not among the documents of the project");
  } else if (evidence->status != EvidenceStatus::present) {
    finding.evidence_gap("declaration '" + id->value + "' of material '" + material.name +
                         "' cannot be read from the project folder");
  }
}

void check_validity(const Settings& settings, const Material& material, Listing listing, OpenFinding& finding) {
  const auto valid_until = material.properties.text(kSet, "ValidUntil");
  const auto assessed = settings.text("project.assessment_date");
  if (!assessed || !is_iso_date(assessed->value)) {
    finding.builder().missing("setting 'project.assessment_date' is missing or not a date YYYY-MM-DD");
    return;
  }
  if (!valid_until || valid_until->value.empty()) {
    finding.evidence_gap(lacks(material, "ValidUntil"));
  } else if (!is_iso_date(valid_until->value)) {
    finding.evidence_gap("material '" + material.name + "': Panel_EnvironmentalDeclaration.ValidUntil '" +
                         valid_until->value + "' is not a date YYYY-MM-DD");
  } else {
    if (listing == Listing::whole) {
      finding.builder().text("declaration of '" + material.name + "' valid until", valid_until, {});
    }
    if (valid_until->value < assessed->value) {
      finding.evidence_gap("the declaration of material '" + material.name + "' ran out on " + valid_until->value +
                           " (Panel_EnvironmentalDeclaration.ValidUntil), before project.assessment_date " +
                           assessed->value);
    }
  }
}

/// Nothing when the value is absent; a value that is not above zero is noted as unusable.
std::optional<double> read_thickness(const Material& material, Listing listing, OpenFinding& finding) {
  const auto thickness = material.properties.number(kSet, "DeclaredThickness");
  if (!thickness) return std::nullopt;
  const bool usable = std::isfinite(thickness->value) && thickness->value > 0.0;
  if (usable && listing == Listing::amount_only) return thickness->value;
  return finding.builder().positive("thickness behind the declared m² of '" + material.name + "'", "d", "m", thickness,
                                    {});
}

}  // namespace

DeclaredAmount declared_amount(const MaterialAmount& amount, std::string_view unit, std::optional<double> thickness_m) {
  if (unit == "kg") {
    if (!amount.mass_kg) return {std::nullopt, "is declared per kg but has no mass (Pset_MaterialCommon.MassDensity)"};
    return {amount.mass_kg, {}};
  }
  if (unit == "m3" || unit == "m2") {
    if (!amount.volume_m3) {
      return {std::nullopt, "is declared per " + std::string(unit) + " but a part of it has no volume"};
    }
    if (unit == "m3") return {amount.volume_m3, {}};
    if (!thickness_m || *thickness_m <= 0.0) {
      return {std::nullopt, "is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness"};
    }
    return {*amount.volume_m3 / *thickness_m, {}};
  }
  if (unit == "piece") {
    if (!amount.pieces) return {std::nullopt, "is declared per piece but is not measured in pieces"};
    return {amount.pieces, {}};
  }
  return {std::nullopt, "has Panel_EnvironmentalDeclaration.DeclaredUnit '" + std::string(unit) +
                            "', which is none of kg, m3, m2 and piece"};
}

std::optional<double> read_declared_units(const PanelAccount& account, std::size_t row, Listing listing,
                                          OpenFinding& finding) {
  const Material& material = account.material(row);
  check_document(account.project, material, listing, finding);
  check_validity(account.settings, material, listing, finding);
  const auto unit = material.properties.text(kSet, "DeclaredUnit");
  if (!unit || unit->value.empty()) {
    finding.evidence_gap(lacks(material, "DeclaredUnit"));
    return std::nullopt;
  }
  if (listing == Listing::whole) finding.builder().text("declared unit of '" + material.name + "'", unit, {});
  const auto thickness = unit->value == "m2" ? read_thickness(material, listing, finding) : std::nullopt;
  const MaterialAmount& amount = account.amounts.materials[row];
  const DeclaredAmount declared = declared_amount(amount, unit->value, thickness);
  if (!declared.units) {
    // A missing density is a hole in the model; every other misfit lies in the declaration.
    if (unit->value == "kg") {
      finding.builder().missing("material '" + material.name + "' " + declared.gap);
    } else {
      finding.evidence_gap("material '" + material.name + "' " + declared.gap);
    }
    return std::nullopt;
  }
  return finding.builder().number("amount of '" + material.name + "' in the panel, by take-off", "q", unit->value,
                                  Sourced<double>{*declared.units, account.panel.origin}, {});
}

std::optional<double> read_indicator(const Material& material, const Indicator& indicator, OpenFinding& finding) {
  const auto value = material.properties.number(kSet, indicator.property);
  if (!value) {
    finding.evidence_gap(lacks(material, indicator.property));
    return std::nullopt;
  }
  return finding.builder().number(std::string(indicator.name) + ", of '" + material.name + "'", "",
                                  "kg CO2e per declared unit", value, {});
}

std::optional<double> read_waste_rate(const Material& material, OpenFinding& finding) {
  const auto rate = material.properties.number(kSet, "WasteRateA5");
  if (!rate) {
    finding.evidence_gap(lacks(material, "WasteRateA5"));
    return std::nullopt;
  }
  return finding.builder().number("share of '" + material.name + "' lost as waste", "w", "", rate, {});
}

}  // namespace panel_dossier::carbon
