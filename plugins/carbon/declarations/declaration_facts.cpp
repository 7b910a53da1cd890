#include "plugins/carbon/declarations/declaration_facts.h"

#include <algorithm>
#include <cmath>

#include "core/api/model/project.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/carbon/declarations/declared_figure.h"
#include "plugins/carbon/declarations/plausible_declaration.h"

namespace panel_dossier::carbon {

namespace {

void check_document(const Settings& settings, const DeclaredMaterial& declared, Listing listing, OpenFinding& finding) {
  const Material& material = *declared.material;
  const auto id = material.properties.text(kDeclarationSet, "DocumentId");
  if (!id || id->value.empty()) {
    finding.evidence_gap(lacks(material, "DocumentId"));
    return;
  }
  if (listing == Listing::whole) finding.builder().text("environmental declaration of '" + material.name + "'", id, {});
  const std::string label = "declaration '" + id->value + "' of material '" + material.name + "'";
  if (declared.document == nullptr) {
    finding.evidence_gap(label + " is not among the documents of the project");
    return;
  }
  if (!declared.file_fault.empty()) {
    finding.evidence_gap(label + " is faulty: " + std::string(declared.file_fault) + "; ask the supplier for it again");
    return;
  }
  std::vector<EvidenceKind> kinds{EvidenceKind::environmental_declaration};
  // A file that is read as a declaration shows by that what it is.
  if (declared.file != nullptr) kinds.push_back(EvidenceKind::not_stated);
  const auto assessed = settings.text("project.assessment_date");
  const std::string fault = evidence_fault(*declared.document, kinds, assessed ? assessed->value : "");
  if (!fault.empty()) finding.evidence_gap("declaration of material '" + material.name + "': " + fault);
}

void check_validity(const Settings& settings, const DeclaredMaterial& declared, Listing listing, OpenFinding& finding) {
  const Material& material = *declared.material;
  const auto assessed = settings.text("project.assessment_date");
  if (!assessed || !is_iso_date(assessed->value)) {
    finding.missing_once("setting 'project.assessment_date' is missing or not a date YYYY-MM-DD");
    return;
  }
  const auto until = valid_until(declared);
  if (!until) {
    finding.evidence_gap(lacks(material, "ValidUntil"));
  } else if (!is_iso_date(until->value)) {
    finding.evidence_gap("material '" + material.name + "': Panel_EnvironmentalDeclaration.ValidUntil '" +
                         until->value + "' is not a date YYYY-MM-DD");
  } else {
    if (listing == Listing::whole) {
      finding.builder().text("declaration of '" + material.name + "' valid until", until, {});
    }
    if (until->value < assessed->value) {
      finding.evidence_gap("the declaration of material '" + material.name + "' ran out on " + until->value +
                           " (Panel_EnvironmentalDeclaration.ValidUntil), before project.assessment_date " +
                           assessed->value + "; ask the supplier for the one in force");
    }
  }
}

/// The unit as one of kg, m3, m2 and piece; none with the gap noted.
std::optional<std::string_view> read_unit(const DeclaredMaterial& declared, Listing listing, OpenFinding& finding) {
  const Material& material = *declared.material;
  const Declaration* file = declared.file;
  const auto property = material.properties.text(kDeclarationSet, "DeclaredUnit");
  const bool has_property = property && !property->value.empty();
  const auto unit = file != nullptr && file->unit ? file->unit : property;
  if (!unit || unit->value.empty()) {
    finding.evidence_gap(lacks(material, "DeclaredUnit"));
    return std::nullopt;
  }
  const auto word = unit_word(unit->value);
  if (!word) {
    finding.evidence_gap("material '" + material.name + "' has Panel_EnvironmentalDeclaration.DeclaredUnit '" +
                         unit->value + "', which is none of kg, m3, m2 and piece");
    return std::nullopt;
  }
  if (has_property) {
    const auto in_export = unit_word(property->value);
    if (!in_export || in_export->unit != word->unit) {
      finding.evidence_gap("material '" + material.name + "' is declared per " + unit->value + " (" +
                           describe(unit->origin) + ") but its DeclaredUnit in the export is '" + property->value +
                           "'; correct the export");
      return std::nullopt;
    }
  }
  if (listing == Listing::whole) finding.builder().text("declared unit of '" + material.name + "'", unit, {});
  return word->unit;
}

/// Nothing when no value is there; a value that is not above zero, or two that differ, are noted.
std::optional<double> read_thickness(const DeclaredMaterial& declared, Listing listing, OpenFinding& finding) {
  const Material& material = *declared.material;
  const Declaration* file = declared.file;
  const auto property = material.properties.number(kDeclarationSet, "DeclaredThickness");
  const auto thickness = file != nullptr && file->thickness_m ? file->thickness_m : property;
  if (!thickness) return std::nullopt;
  if (property && !agree(property->value, thickness->value)) {
    finding.evidence_gap("material '" + material.name +
                         "': DeclaredThickness in the export is not that of the declaration (" +
                         describe(thickness->origin) + "); correct the export");
    return std::nullopt;
  }
  const bool usable = std::isfinite(thickness->value) && thickness->value > 0.0;
  if (usable && listing == Listing::amount_only) return thickness->value;
  return finding.builder().positive("thickness behind the declared m² of '" + material.name + "'", "d", "m", thickness,
                                    {});
}

/// The amount stands for the product as declared only where density and thickness are those of the model.
void note_other_product(const PanelAccount& account, std::size_t row, const UnitFacts& facts, FindingBuilder& builder) {
  constexpr double kSame = 0.05;  // nominal densities and thicknesses of one product stay within this (common practice)
  const auto differs = [](double declared, double built) { return std::abs(declared / built - 1.0) > kSame; };
  const MaterialAmount& amount = account.amounts.materials[row];
  const std::string of = "'" + account.material(row).name + "' is declared ";
  if (facts.density_kg_per_m3 && amount.mass_kg && amount.volume_m3 && *amount.mass_kg > 0.0 &&
      *amount.volume_m3 > 0.0) {
    const double built = *amount.mass_kg / *amount.volume_m3;
    if (differs(*facts.density_kg_per_m3, built)) {
      builder.note(of + "for " + fixed_text(*facts.density_kg_per_m3, 0) + " kg/m³ and built in at " +
                   fixed_text(built, 0) + " kg/m³: check that the declaration is that of the product.");
    }
  }
  if (!facts.thickness_m) return;
  for (const Layer& layer : account.panel.layers) {
    if (layer.material != amount.material || !differs(*facts.thickness_m, layer.thickness_m.value)) continue;
    builder.note(of + "per m² of " + fixed_text(units::millimetres_from_metres(*facts.thickness_m), 1) +
                 " mm and built in at " + fixed_text(units::millimetres_from_metres(layer.thickness_m.value), 1) +
                 " mm, counted by volume: facings and membranes do not grow with thickness.");
    return;
  }
}

}  // namespace

std::string lacks(const Material& material, std::string_view property) {
  return "material '" + material.name + "' has no " + std::string(kDeclarationSet) + "." + std::string(property);
}

bool agree(double a, double b) {
  return std::abs(a - b) <= kAgreement * std::max(std::abs(a), std::abs(b));
}

std::optional<DataKind> data_kind(const DeclaredMaterial& declared) {
  const Declaration* file = declared.file;
  const auto written =
      file != nullptr && file->kind ? file->kind : declared.material->properties.text(kDeclarationSet, "DataKind");
  if (!written) return std::nullopt;
  std::string word = written->value;
  for (char& c : word) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  const auto holds = [&](std::string_view part) { return word.find(part) != std::string::npos; };
  if (holds("specific")) return DataKind::specific;
  if (holds("average") || holds("representative")) return DataKind::average;
  if (holds("generic") || holds("template")) return DataKind::generic;
  return std::nullopt;
}

std::string_view to_string(DataKind kind) {
  switch (kind) {
    case DataKind::specific: return "specific";
    case DataKind::average: return "average";
    case DataKind::generic: break;
  }
  return "generic";
}

std::optional<Sourced<std::string>> valid_until(const DeclaredMaterial& declared) {
  auto property = declared.material->properties.text(kDeclarationSet, "ValidUntil");
  if (property && property->value.empty()) property.reset();
  const Declaration* file = declared.file;
  if (file == nullptr || !file->valid_until) return property;
  Sourced<std::string> in_file = *file->valid_until;
  if (in_file.value.size() == 4) in_file.value += "-12-31";
  return property && property->value < in_file.value ? property : in_file;
}

void check_declaration(const Settings& settings, const DeclaredMaterial& declared, Listing listing,
                       OpenFinding& finding) {
  check_document(settings, declared, listing, finding);
  check_validity(settings, declared, listing, finding);
  check_product(declared, settings, finding);
}

std::optional<double> read_declared_units(const PanelAccount& account, std::size_t row, Listing listing,
                                          OpenFinding& finding) {
  const DeclaredMaterial& declared = account.declared(row);
  const Material& material = *declared.material;
  check_declaration(account.inputs.settings, declared, listing, finding);
  const auto unit = read_unit(declared, listing, finding);
  if (!unit) return std::nullopt;
  UnitFacts facts;
  if (*unit == "m2") facts.thickness_m = read_thickness(declared, listing, finding);
  const Declaration* file = declared.file;
  if (file != nullptr && file->density_kg_per_m3) facts.density_kg_per_m3 = file->density_kg_per_m3->value;
  if (listing == Listing::whole) note_other_product(account, row, facts, finding.builder());
  const DeclaredAmount amount = declared_amount(account.amounts.materials[row], *unit, facts);
  if (!amount.units) {
    // A missing density is a hole in the model; every other misfit lies in the declaration.
    if (*unit == "kg") {
      finding.builder().missing("material '" + material.name + "' " + amount.gap);
    } else {
      finding.evidence_gap("material '" + material.name + "' " + amount.gap);
    }
    return std::nullopt;
  }
  if (*amount.units > 0.0) check_plausible(account, row, *unit, facts, *amount.units, finding);
  return finding.builder().number("amount of '" + material.name + "' in the panel, by take-off", "q",
                                  std::string(*unit), Sourced<double>{*amount.units, account.panel.origin}, {});
}

std::vector<CheckInput> declared_amount_inputs() {
  const std::string set = std::string(kDeclarationSet) + ".";
  return {property(set + "DocumentId"),
          optional_property(set + "ValidUntil"),
          optional_property(set + "DeclaredUnit"),
          optional_property(set + "DeclaredThickness"),
          optional_property(set + "Product"),
          optional_property(set + "Geography"),
          optional_property(set + "GwpFossilA1A3"),
          optional_property(set + "GwpBiogenicA1A3"),
          optional_property(set + "GwpLulucA1A3"),
          optional_property(set + "Scenario"),
          optional_property("Pset_MaterialCommon.MassDensity"),
          optional_property("Panel_Timber.ReferenceMoistureContent"),
          optional_property("Panel_Timber.MoistureContent"),
          setting("project.assessment_date"),
          optional_setting("project.jurisdiction"),
          data_table("biogenic_carbon.csv"),
          data_table("plausible_declarations.csv")};
}

std::vector<CheckInput> merged_inputs(const std::vector<std::vector<CheckInput>>& lists) {
  std::vector<CheckInput> merged;
  for (const std::vector<CheckInput>& list : lists) {
    for (const CheckInput& input : list) {
      const auto same = std::find_if(merged.begin(), merged.end(), [&](const CheckInput& other) {
        return other.source == input.source && other.name == input.name;
      });
      if (same == merged.end()) {
        merged.push_back(input);
      } else {
        same->optional = same->optional && input.optional;
      }
    }
  }
  return merged;
}

std::vector<CheckInput> optional_inputs(std::vector<CheckInput> inputs) {
  for (CheckInput& input : inputs) input.optional = true;
  return inputs;
}

std::optional<double> read_waste_rate(const Material& material, OpenFinding& finding) {
  const auto rate = material.properties.number(kDeclarationSet, "WasteRateA5");
  if (!rate) {
    finding.evidence_gap(lacks(material, "WasteRateA5"));
    return std::nullopt;
  }
  return finding.builder().number("share of '" + material.name + "' lost as waste", "w", "", rate, {});
}

}  // namespace panel_dossier::carbon
