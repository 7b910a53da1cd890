#include "reduction_index.h"

#include <cmath>
#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"

namespace sound {

using namespace panel_dossier;

const CheckDeclaration kReductionIndexCheck{
    .id = "sound.reduction_index",
    .title = "Weighted sound reduction index of the panel without its openings",
    .sentence =
        "The weighted sound reduction index reported by a measurement is at least the required one; without a "
        "measurement the mass law gives an estimate, which never passes.",
    .clause = "EN ISO 717-1:2020, 4.4 and 4.5; mass law at field incidence (common practice)",
    .units = {"dB"},
    .kind = CheckKind::evidence,
    .inputs = {property("Pset_MaterialCommon.MassDensity"), optional_property("Panel_Sound.TestedReductionIndex"),
               optional_property("Panel_Sound.TestReport"), optional_setting("sound.required_reduction_index_db"),
               data_table("reference_curve.csv")},
    .limits = {"The mass law takes the panel as one limp leaf: the resonance of two leaves with the cavity between "
               "them, coincidence, studs as sound bridges and the absorption in the cavity are not seen.",
               "Openings, joints and flanking through the frame and the slabs are not part of it."}};

namespace {

constexpr const char* kRequirement = "sound.required_reduction_index_db";
constexpr const char* kSet = "Panel_Sound";

/// Mass of all layers for each m² of face; noted as missing in the builder where a layer's density is.
double surface_mass(FindingBuilder& builder, const Panel& panel, const Project& project) {
  Table table{"Layers from inside to outside", {{"layer", ""}, {"ρ", "kg/m³"}, {"d", "m"}}, {}};
  double mass_kg_per_m2 = 0.0;
  for (const Layer& layer : panel.layers) {
    const Material* material = material_at(project, layer.material);
    if (material == nullptr) continue;  // an air layer weighs nothing here
    const auto density = builder.positive("density of " + layer.name, "", "kg/m³", material->density_kg_per_m3(),
                                          "Pset_MaterialCommon.MassDensity of " + layer.name);
    if (!density) continue;
    mass_kg_per_m2 += *density * layer.thickness_m.value;
    table.rows.push_back({layer.name, *density, layer.thickness_m.value});
  }
  if (panel.layers.empty()) builder.missing("the panel's material layers");
  builder.table(std::move(table));
  return mass_kg_per_m2;
}

std::vector<double> reduction_of(const std::vector<Band>& bands, double surface_mass_kg_per_m2) {
  std::vector<double> reduction_db;
  for (const Band& band : bands) reduction_db.push_back(mass_law_db(surface_mass_kg_per_m2, band.frequency_hz));
  return reduction_db;
}

void add_chart(FindingBuilder& builder, const std::vector<Band>& bands, const std::vector<double>& reduction_db,
               const Rating& rating) {
  constexpr double kReferenceAt500Hz_db = 52.0;
  Curve law{"mass law", {}};
  Curve reference{"reference curve, shifted", {}};
  Table table{"Bands", {{"f", "Hz"}, {"R", "dB"}, {"reference", "dB"}}, {}};
  for (std::size_t i = 0; i < bands.size(); ++i) {
    // Octaves above 100 Hz: the ear and the bands count in ratios.
    const double octaves = std::log2(bands[i].frequency_hz / bands.front().frequency_hz);
    const double shifted_db = bands[i].reference_db + rating.r_w_db - kReferenceAt500Hz_db;
    law.points.push_back({octaves, reduction_db[i]});
    reference.points.push_back({octaves, shifted_db});
    table.rows.push_back({bands[i].frequency_hz, reduction_db[i], shifted_db});
  }
  builder.table(std::move(table));
  builder.series(
      {"Sound reduction index", "octaves above 100 Hz", "", "R", "dB", {std::move(law), std::move(reference)}});
}

bool is_there(const Project& project, const std::string& id) {
  const Evidence* report = find_evidence(project, id);
  return report != nullptr && report->status == EvidenceStatus::present;
}

}  // namespace

double mass_law_db(double surface_mass_kg_per_m2, double frequency_hz) {
  constexpr double kFieldIncidence_db = 47.0;
  return 20.0 * std::log10(surface_mass_kg_per_m2 * frequency_hz) - kFieldIncidence_db;
}

Finding reduction_index(const Panel& panel, const Project& project, const Settings& settings,
                        const std::vector<Band>& bands) {
  FindingBuilder builder(kReductionIndexCheck, panel.global_id);
  builder.decimals(0);
  const double mass_kg_per_m2 = surface_mass(builder, panel, project);
  if (builder.incomplete()) return builder.not_assessed();
  const std::vector<double> reduction_db = reduction_of(bands, mass_kg_per_m2);
  const Rating rating = rate(bands, reduction_db);
  builder.step("mass for each m² of face", "m'", mass_kg_per_m2, "kg/m²", "m' = sum(ρ · d)")
      .step("index by the mass law, reference curve shifted until the unfavourable deviations exceed 32 dB", "R_w",
            rating.r_w_db, "dB")
      .step("sum of the unfavourable deviations", "ΣΔ", rating.unfavourable_db, "dB")
      .step("spectrum adaptation term, pink noise", "C", rating.c_db, "dB")
      .step("spectrum adaptation term, road traffic", "C_tr", rating.c_tr_db, "dB")
      .value("r_w", rating.r_w_db, "dB")
      .value("surface_mass", mass_kg_per_m2, "kg/m²")
      .value("c", rating.c_db, "dB")
      .value("c_tr", rating.c_tr_db, "dB");
  add_chart(builder, bands, reduction_db, rating);

  const auto required = settings.number(kRequirement);
  if (!required) return builder.inform(rating.r_w_db, "dB");
  const auto required_db = builder.positive("required index", "R_w,req", "dB", required, kRequirement);
  const auto report = panel.properties.text(kSet, "TestReport");
  const auto tested = panel.properties.number(kSet, "TestedReductionIndex");
  if (!report || !tested) {
    return builder.needs_evidence("the mass law estimates " + std::to_string(static_cast<int>(rating.r_w_db)) +
                                  " dB: give Panel_Sound.TestedReductionIndex and Panel_Sound.TestReport of a "
                                  "measurement to EN ISO 10140-2");
  }
  builder.basis(Basis::test_evidence).text("test report", report, "Panel_Sound.TestReport");
  const auto tested_db =
      builder.positive("index measured", "R_w,test", "dB", tested, "Panel_Sound.TestedReductionIndex");
  if (builder.incomplete()) return builder.not_assessed();
  if (!is_there(project, report->value)) {
    return builder.needs_evidence("Panel_Sound.TestReport '" + report->value +
                                  "' is not among the documents: put the report into the project folder");
  }
  return builder.judge(*tested_db, "dB", Relation::at_least, *required_db,
                       "the measured index is below the required one: add mass or a second lining on resilient bars");
}

}  // namespace sound
