// Wrong projects that the carbon account must notice.
#include "tests/consistency/wrong_project.h"

namespace panel_dossier::testing {

namespace {

constexpr const char* kTimber = "Structural softwood C24";
constexpr const char* kGlulam = "Glued laminated timber GL24h";
constexpr const char* kOsb = "Oriented strand board OSB/3";
constexpr const char* kWool = "Stone wool slab";
constexpr const char* kBoard = "Gypsum plasterboard type F";
constexpr const char* kCladding = "Fibre-cement cladding board";
constexpr const char* kFilm = "Polyethylene vapour control layer";
constexpr const char* kSteel = "Galvanised steel";

std::string declared(const char* name) {
  return std::string("Panel_EnvironmentalDeclaration.") + name;
}

std::string supply(const char* name) {
  return std::string("Panel_Supply.") + name;
}

/// The first target of the settings in place of the file.
Edit set_targets(double limit) {
  return both(drop_setting("carbon.targets_file"),
              set_setting("carbon.targets", nlohmann::json::array({{{"name", "of the whole life"},
                                                                    {"modules", "A-C"},
                                                                    {"applies_to", "every panel"},
                                                                    {"limit_kgco2e_per_m2", limit},
                                                                    {"source", "project brief"}}})));
}

// The declaration of the cladding is a text for people, so its figures are the export's alone; the others have files.
const RegisterWrongCases kCarbonCases{{
    {"a declaration that ran out", set_of_material(kBoard, declared("ValidUntil"), "2026-05-31"), "carbon.a1_a3",
     "ran out on 2026-05-31"},
    {"a declaration that never ran", set_of_material(kCladding, declared("ValidUntil"), "2026-02-30"), "carbon.a1_a3",
     "2026-02-30"},
    {"no day of expiry", drop_property(declared("ValidUntil")), "carbon.a1_a3", "ValidUntil"},
    {"no declaration named", drop_property(declared("DocumentId")), "carbon.a1_a3", "DocumentId"},
    {"a declaration of another material", set_of_material(kBoard, declared("DocumentId"), "EPD-305"), "carbon.a1_a3",
     "of another product"},
    {"a fire report for a declaration", set_of_material(kCladding, declared("DocumentId"), "FT-101"), "carbon.a1_a3",
     "document 'FT-101'"},
    {"a certificate for a declaration", set_of_material(kCladding, declared("DocumentId"), "COC-401"), "carbon.c1_c4",
     "document 'COC-401'"},
    {"a declaration that is not in the folder", set_of_material(kBoard, declared("DocumentId"), "EPD-999"),
     "carbon.c1_c4", "EPD-999"},
    {"declared by the kilogram in place of the cubic metre", set_of_material(kTimber, declared("DeclaredUnit"), "kg"),
     "carbon.a1_a3", "DeclaredUnit in the export is 'kg'"},
    {"cladding declared by the cubic metre", set_of_material(kCladding, declared("DeclaredUnit"), "m3"), "carbon.a1_a3",
     "check the declared unit"},
    {"cladding declared by the kilogram", set_of_material(kCladding, declared("DeclaredUnit"), "kg"), "carbon.a1_a3",
     "check the declared unit"},
    {"a declared unit that nobody knows", set_of_material(kCladding, declared("DeclaredUnit"), "pallet"),
     "carbon.a1_a3", "pallet"},
    {"no declared unit", drop_property(declared("DeclaredUnit")), "carbon.a1_a3", "DeclaredUnit"},
    {"declared thickness ten times off", scale_of_material(kCladding, declared("DeclaredThickness"), 10.0),
     "carbon.a1_a3", "the declaration is that of another product"},
    {"declared thickness not that of the file", scale_of_material(kBoard, declared("DeclaredThickness"), 2.0),
     "carbon.a1_a3", "DeclaredThickness in the export is not that of the declaration"},
    {"no declared thickness", set_of_material(kCladding, declared("DeclaredThickness"), "0"), "refused", "cannot be"},
    {"fossil carbon below nothing", set_of_material(kOsb, declared("GwpFossilA1A3"), "-1860"), "carbon.a1_a3",
     "outside of the usual"},
    {"fossil carbon ten times too low", scale_of_material(kCladding, declared("GwpFossilA1A3"), 0.1), "carbon.a1_a3",
     "usual of category 'cement'"},
    {"fossil carbon ten times too high", scale_of_material(kCladding, declared("GwpFossilA1A3"), 10.0), "carbon.a1_a3",
     "usual of category 'cement'"},
    {"fossil carbon of nothing", set_of_material(kCladding, declared("GwpFossilA1A3"), "0"), "carbon.a1_a3",
     "making a product emits"},
    {"fossil carbon not that of the file", scale_of_material(kSteel, declared("GwpFossilA1A3"), 1.1), "carbon.a1_a3",
     "is not that of the declaration"},
    {"an uptake three times what the wood holds", scale_of_material(kTimber, declared("GwpBiogenicA1A3"), 3.0),
     "carbon.a1_a3", "GwpBiogenicA1A3"},
    {"wood that takes up a kilogram", set_of_material(kGlulam, declared("GwpBiogenicA1A3"), "-1"), "carbon.c1_c4",
     "GwpBiogenicA1A3"},
    {"cladding that takes up as much as wood", set_of_material(kCladding, declared("GwpBiogenicA1A3"), "-23"),
     "carbon.a1_a3", "takes up at most"},
    {"half as much water as wood", set_of_material(kTimber, "Panel_Timber.ReferenceMoistureContent", "0.9"),
     "carbon.biogenic_storage", "outside of the usual"},
    {"moisture content in per cent", set_of_material(kTimber, "Panel_Timber.ReferenceMoistureContent", "12"), "refused",
     "cannot be"},
    {"no moisture content",
     both(drop_property("Panel_Timber.ReferenceMoistureContent"), drop_property("Panel_Timber.MoistureContent")),
     "carbon.biogenic_storage", "ReferenceMoistureContent"},
    {"wood of half the density that is declared", scale_of_material(kGlulam, "Pset_MaterialCommon.MassDensity", 1.5),
     "carbon.a1_a3", "more than 15 % apart"},
    {"disposal below nothing", set_of_material(kCladding, declared("GwpTotalC2"), "-0.1"), "carbon.c1_c4",
     "the fossil carbon of C2 is negative"},
    {"disposal that nobody declares", drop_property(declared("GwpTotalC4")), "carbon.c1_c4", "GwpTotalC4"},
    {"an uptake that nobody gives back", set_of_material(kCladding, declared("GwpTotalC3"), "0"), "carbon.c1_c4",
     "does not give back"},
    {"disposal not that of the file", scale_of_material(kWool, declared("GwpTotalC3"), 2.0), "carbon.c1_c4",
     "is not the sum of GWP-fossil"},
    {"module D not that of the file", scale_of_material(kFilm, declared("GwpTotalD"), 10.0), "carbon.d",
     "is not that of the declaration"},
    {"no module D of the cladding", drop_property(declared("GwpTotalD")), "carbon.d", "GwpTotalD"},
    {"timber for four days", set_of_material(kTimber, "Panel_Supply.ServiceLife", "0.01"), "refused", "cannot be"},
    {"no transport", set_of_material(kBoard, "Panel_Supply.TransportDistance", "0"), "carbon.a4", "TransportDistance"},
    {"transport in km where mm are written", scale_of_material(kBoard, "Panel_Supply.TransportDistance", 1e-6),
     "carbon.a4", "TransportDistance"},
    {"transport twice round the earth", scale_of_material(kBoard, "Panel_Supply.TransportDistance", 600.0), "refused",
     "cannot be"},
    {"no distance", drop_property("Panel_Supply.TransportDistance"), "carbon.a4", "TransportDistance"},
    {"no vehicle", set_setting("carbon.road_transport_gwp_kgco2e_per_tonne_km", 0.0), "carbon.a4",
     "outside of the usual"},
    {"a vehicle in g", set_setting("carbon.road_transport_gwp_kgco2e_per_tonne_km", 100.0), "carbon.a4",
     "outside of the usual"},
    {"no factor of the vehicle", drop_setting("carbon.road_transport_gwp_kgco2e_per_tonne_km"), "carbon.a4",
     "is missing"},
    {"no factor of the assembly", drop_setting("carbon.site_assembly_gwp_kgco2e_per_m2"), "carbon.a5", "is missing"},
    {"an assembly of nothing", set_setting("carbon.site_assembly_gwp_kgco2e_per_m2", 0.0), "carbon.a5",
     "outside of the usual"},
    {"waste that nobody declares", drop_property(declared("WasteRateA5")), "carbon.a5", "WasteRateA5"},
    {"half of the timber lost", set_of_material(kTimber, declared("WasteRateA5"), "0.9"), "carbon.a5",
     "outside of the usual"},
    {"waste in per cent", set_of_material(kTimber, declared("WasteRateA5"), "8"), "refused", "cannot be"},
    {"no service life", drop_property("Panel_Supply.ServiceLife"), "carbon.b4", "ServiceLife"},
    {"cladding for ten thousand years", set_of_material(kCladding, "Panel_Supply.ServiceLife", "10000"), "refused",
     "cannot be"},
    {"cladding for a year", set_of_material(kCladding, "Panel_Supply.ServiceLife", "1"), "carbon.b4",
     "outside of the usual"},
    {"wool that lasts longer than declared", set_of_material(kWool, "Panel_Supply.ServiceLife", "120"), "carbon.b4",
     "longer than the declaration's reference service life"},
    {"no study period", drop_setting("carbon.study_period_years"), "carbon.b4", "is missing"},
    {"a study period of a year", set_setting("carbon.study_period_years", 1.0), "carbon.b4", "outside of the usual"},
    {"no day of assessment of declarations", drop_setting("project.assessment_date"), "carbon.a1_a3",
     "project.assessment_date"},
    {"a day of assessment that does not exist", set_setting("project.assessment_date", "2026-02-30"), "refused",
     "assessment_date"},
    {"assessed after all declarations", set_setting("project.assessment_date", "2036-06-01"), "carbon.a1_a3",
     "ran out"},
    {"no targets", drop_setting("carbon.targets_file"), "carbon.total_per_area", "no target of the project"},
    {"no target of the whole life", drop_setting("carbon.targets_file"), "carbon.whole_life",
     "no target of the project"},
    {"a target beyond all bounds", set_targets(1e9), "carbon.whole_life", "outside of the usual"},
    {"a target that the whole life exceeds", set_targets(2.0), "carbon.whole_life", "is above the target"},
    {"generic data without uncertainty", drop_setting("carbon.uncertainty_generic"), "carbon.whole_life",
     "needs their uncertainty"},
    {"an uncertainty of nothing", set_setting("carbon.uncertainty_generic", 0.0), "carbon.whole_life",
     "outside of the usual"},
    {"data of no stated kind", set_of_material(kWool, declared("DataKind"), "GOOD"), "carbon.whole_life", "DataKind"},
    {"an air test for a certificate of wood", set_property(supply("ChainOfCustodyDocument"), "AIR-501"),
     "carbon.chain_of_custody", "is of the kind 'air test report'"},
    {"no certificate of wood", drop_property(supply("ChainOfCustodyDocument")), "carbon.chain_of_custody",
     "ChainOfCustodyDocument is missing"},
    {"a certificate of wood that is not there", set_property(supply("ChainOfCustodyDocument"), "COC-999"),
     "carbon.chain_of_custody", "'COC-999' is not among"},
    {"no claim of the wood", drop_property(supply("ChainOfCustodyClaim")), "carbon.chain_of_custody",
     "ChainOfCustodyClaim"},
    {"a claim that nobody knows", set_property(supply("ChainOfCustodyClaim"), "GREEN"), "carbon.chain_of_custody",
     "GREEN"},
    {"wood of the day after the assessment", set_property(supply("ChainOfCustodyDate"), "2026-06-02"),
     "carbon.chain_of_custody", "lies after project.assessment_date"},
    {"wood of a day before its certificate", set_property(supply("ChainOfCustodyDate"), "2024-06-30"),
     "carbon.chain_of_custody", "was issued"},
    {"wood of a day that does not exist", set_property(supply("ChainOfCustodyDate"), "2026-02-30"),
     "carbon.chain_of_custody", "2026-02-30"},
    {"no delivery note of the wood", drop_property(supply("DeliveryNote")), "carbon.chain_of_custody",
     "DeliveryNote is missing"},
    {"a certificate for its own delivery note", set_property(supply("DeliveryNote"), "COC-401"),
     "carbon.chain_of_custody", "is the certificate itself"},
    {"a fire report for a delivery note", set_property(supply("DeliveryNote"), "FT-101"), "carbon.chain_of_custody",
     "is of the kind 'fire test report'"},
    {"a delivery note of another batch", set_property("Pset_ManufacturerOccurrence.BatchReference", "B99-oak"),
     "carbon.chain_of_custody", "does not name the batch 'B99-oak'"},
    {"certificates run out by the assessment", set_setting("project.assessment_date", "2029-07-01"),
     "carbon.chain_of_custody", "has expired"},
    {"a stud twice in the account", double_first_part("IfcMember", "Stud"), "carbon.a1_a3", "is there twice"},
    {"a sheet missing in the account", drop_first_part("IfcPlate", ""), "carbon.a1_a3", "unfilled"},
}};

}  // namespace

}  // namespace panel_dossier::testing
