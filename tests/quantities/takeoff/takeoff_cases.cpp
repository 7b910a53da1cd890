// Cases of areas, masses, measures, costs and fixings.
#include <string>

#include "core/api/testing/check_cases.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::quantities::test;

namespace {

const RegisterCases kArea{
    {.check = "quantities.area",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 5.76},
         {.label = "an opening is deducted in full",
          .change = cut_opening(0.5, 1.0),
          .verdict = Verdict::information,
          .value = 5.26},
         {.label = "a small opening is deducted from the net area, though not from the billed one",
          .change = together({cut_opening(0.5, 1.0), set_setting("quantities.opening_deduction_over_m2", 0.5)}),
          .verdict = Verdict::information,
          .value = 5.26},
         {.label = "openings as large as the panel",
          .change = cut_opening(2.4, 2.4),
          .verdict = Verdict::not_assessed,
          .reason = "the openings are larger than the panel; check their sizes"},
         {.label = "no width",
          .change = change_panels([](Panel& panel) { panel.width_m.value = 0.0; }),
          .verdict = Verdict::not_assessed,
          .reason = "panel width must be greater than zero (export)",
          .also_moves = {"*"}},
     }}};

const RegisterCases kAreaOfProject{
    {.check = "quantities.area",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 11.52},
             {.label = "one panel without width",
              .change = change_first([](Panel& panel) { panel.width_m.value = 0.0; }),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 1 of 2 panels: 'P01'; see each panel for what is missing",
              .also_moves = {"*"}},
         },
     .of_project = true}};

const RegisterCases kMass{
    {.check = "quantities.mass",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 89.935175},
         {.label = "a weight in the export stands for volume times density",
          .change = set_of_parts(PartKind::sheet, "Qto_PlateBaseQuantities.NetWeight", 20.0),
          .verdict = Verdict::information,
          .value = 85.007175,
          .also_moves = {"quantities.loads"}},
         {.label = "a weight that is not that of volume and density",
          .change = set_of_parts(PartKind::sheet, "Qto_PlateBaseQuantities.NetWeight", 200.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "'board 1' is stated to weigh 200.00 kg (IfcPropertySingleValue Qto_PlateBaseQuantities.NetWeight, "
              "0000000000000000000001, line 7), but its volume times density is 22.46 kg, more "
              "than 15 % apart: correct one of them; 'board 2' is stated to weigh 200.00 kg (IfcPropertySingleValue "
              "Qto_PlateBaseQuantities.NetWeight, 0000000000000000000001, line 7), but its "
              "volume times density is 22.46 kg, more than 15 % apart: correct one of them",
          .also_moves = {"*"}},
         {.label = "a panel that is stated to weigh twice as much",
          .change = set_of_panels("Qto_WallBaseQuantities.NetWeight", 180.0),
          .verdict = Verdict::not_assessed,
          .reason =
              "'the panel, Qto_WallBaseQuantities.NetWeight' is stated to weigh 180.00 kg (IfcPropertySingleValue "
              "Qto_WallBaseQuantities.NetWeight, 0000000000000000000001, line 7), but its volume "
              "times density is 89.94 kg, more than 15 % apart: correct one of them",
          .also_moves = {"quantities.loads", "quantities.centre_of_gravity"}},
         {.label = "a window that the factory fits weighs too",
          .change = together({fit_window(), set_of_fillings("Panel_Filling.FactoryFitted", true),
                              set_of_fillings("Panel_Filling.Mass", 30.0)}),
          .verdict = Verdict::information,
          .value = 119.935175,
          .also_moves = {"quantities.area", "quantities.loads", "quantities.centre_of_gravity", "quantities.costs"}},
         {.label = "a window that nobody says who fits",
          .change = fit_window(),
          .verdict = Verdict::not_assessed,
          .reason = "'window' does not say Panel_Filling.FactoryFitted",
          .also_moves = {"*"}},
         {.label = "a material without density",
          .change = drop_of_material(1, "Pset_MaterialCommon.MassDensity"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'particle board' has no positive Pset_MaterialCommon.MassDensity",
          .also_moves = {"quantities.loads", "quantities.centre_of_gravity"}},
         {.label = "a panel without parts is weighed by its layers, framing unseen",
          .change = change_panels([](Panel& panel) {
            panel.parts.clear();
            Layer layer;
            layer.name = "wood";
            layer.material = 0;
            layer.thickness_m.value = 0.1;
            panel.layers = {layer};
          }),
          .verdict = Verdict::information,
          .value = 241.92,
          .also_moves = {"*"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 89.935175,
          .also_moves = {"quantities.costs"}},
     }}};

const RegisterCases kMassOfProject{
    {.check = "quantities.mass",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 179.87035},
             {.label = "materials of one name stay apart",
              .change = rename_materials("material"),
              .verdict = Verdict::information,
              .value = 179.87035,
              .also_moves = {"quantities.waste", "quantities.costs", "quantities.sheet_yield"}},
             {.label = "a panel that cannot be weighed",
              .change = change_first([](Panel& panel) { panel.parts.front().material.reset(); }),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 1 of 2 panels: 'P01'; see each panel for what is missing",
              .also_moves = {"*"}},
         },
     .of_project = true}};

const RegisterCases kCentreOfGravity{
    {.check = "quantities.centre_of_gravity",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "a symmetric panel", .verdict = Verdict::information, .value = 0.0},
         {.label = "a post on the right moves it to the right",
          .change = change_panels([](Panel& panel) {
            panel.parts.push_back(box(PartKind::post, "post", 0, {2.2, 0.0, 0.0}, {0.1, 0.145, 2.0}));
          }),
          .verdict = Verdict::information,
          .value = 0.125241,
          .also_moves = {"*"}},
         {.label = "where a part lies is not known",
          .change = drop_shape(),
          .verdict = Verdict::not_assessed,
          .reason = "'stud 1' has no shape, so where its mass lies is not known",
          .also_moves = {"*"}},
         {.label = "a material without density",
          .change = drop_of_material(1, "Pset_MaterialCommon.MassDensity"),
          .verdict = Verdict::not_assessed,
          .reason = "material 'particle board' has no positive Pset_MaterialCommon.MassDensity",
          .also_moves = {"quantities.mass", "quantities.loads"}},
     }}};

const RegisterCases kLoads{{.check = "quantities.loads",
                            .sound_project = sound_project,
                            .sound_settings = sound_settings,
                            .cases = {
                                {.label = "as made", .verdict = Verdict::information, .value = 0.881963},
                                {.label = "a material without density",
                                 .change = drop_of_material(1, "Pset_MaterialCommon.MassDensity"),
                                 .verdict = Verdict::not_assessed,
                                 .reason = "material 'particle board' has no positive Pset_MaterialCommon.MassDensity",
                                 .also_moves = {"quantities.mass", "quantities.centre_of_gravity"}},
                                {.label = "no width",
                                 .change = change_panels([](Panel& panel) { panel.width_m.value = 0.0; }),
                                 .verdict = Verdict::not_assessed,
                                 .reason = "panel width must be greater than zero (export)",
                                 .also_moves = {"*"}},
                            }}};

const RegisterCases kLoadsOfProject{
    {.check = "quantities.loads",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 1.763926},
             {.label = "panels of a material without density",
              .change = drop_of_material(1, "Pset_MaterialCommon.MassDensity"),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 2 of 2 panels: 'P01', 'P02'; see each panel for what is missing",
              .also_moves = {"*"}},
         },
     .of_project = true}};

const RegisterCases kTakeOff{
    {.check = "quantities.take_off",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made, each part to the millionth", .verdict = Verdict::information, .value = 0.175805},
         {.label = "an opening stays in the gross measure alone",
          .change = cut_opening(0.5, 1.0),
          .verdict = Verdict::information,
          .value = 0.175805,
          .also_moves = {"quantities.area"}},
         {.label = "materials of one name stay apart",
          .change = rename_materials("material"),
          .verdict = Verdict::information,
          .value = 0.175805,
          .also_moves = {"quantities.costs"}},
         {.label = "a part without shape",
          .change = drop_shape(),
          .verdict = Verdict::not_assessed,
          .reason = "part 'stud 1' has no shape, so its section is not known",
          .also_moves = {"*"}},
         {.label = "no parts",
          .change = drop_all_parts(),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no parts to measure in this panel",
          .also_moves = {"*"}},
     }}};

const RegisterCases kTakeOffOfProject{
    {.check = "quantities.take_off",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 0.35161},
             {.label = "materials of one name stay apart",
              .change = rename_materials("material"),
              .verdict = Verdict::information,
              .value = 0.35161,
              .also_moves = {"quantities.waste", "quantities.costs", "quantities.sheet_yield"}},
             {.label = "panels without parts",
              .change = drop_all_parts(),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 2 of 2 panels: 'P01', 'P02'; see each panel for what is missing",
              .also_moves = {"*"}},
         },
     .of_project = true}};

const RegisterCases kCosts{
    {.check = "quantities.costs",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made: 16.35 m of framing, 5.76 m² of board, 96 screws",
          .verdict = Verdict::information,
          .value = 99.93},
         {.label = "a rate of nothing",
          .change = set_setting("quantities.rates.2.rate", 0.0),
          .verdict = Verdict::information,
          .value = 95.13},
         {.label = "a rate below nothing",
          .change = set_setting("quantities.rates.2.rate", -0.01),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.rates.2.rate' must be a number of at least 0"},
         {.label = "no rates",
          .change = drop_settings("quantities.rates."),
          .reason = "the settings give no rates of materials"},
         {.label = "a material without a rate",
          .change = drop_settings("quantities.rates.2."),
          .verdict = Verdict::not_assessed,
          .reason = "not priced: 'steel' has no rate; add a row to the file of 'quantities.rates_file'"},
         {.label = "a rate in a unit that the material is not measured in",
          .change = set_setting("quantities.rates.0.unit", std::string("m2")),
          .verdict = Verdict::not_assessed,
          .reason = "not priced: 'softwood' is not all measured in m²; give a rate in another unit"},
         {.label = "a rate of a name that two materials bear",
          .change = [](Project& project, Settings&) { project.materials[1].name = "softwood"; },
          .verdict = Verdict::not_assessed,
          .reason = "not priced: 'softwood (1 of 2 of this name)' is the name of 2 materials, so which of them its "
                    "rate is for is not known; give each a name of its own in the export; not priced: 'softwood (2 of "
                    "2 of this name)' is the name of 2 materials, so which of them its rate is for is not known; give "
                    "each a name of its own in the export"},
         {.label = "two currencies",
          .change = set_setting("quantities.rates.1.currency", std::string("EUR")),
          .verdict = Verdict::not_assessed,
          .reason = "settings 'quantities.rates' mix currencies (EUR, GBP); give all rates in one"},
         {.label = "a currency that is none",
          .change = set_setting("quantities.rates.2.currency", std::string("Gbp")),
          .verdict = Verdict::not_assessed,
          .reason = "setting 'quantities.rates.2.currency' must be three capital letters of ISO 4217:2015"},
         {.label = "a window that nobody says who fits",
          .change = fit_window(),
          .verdict = Verdict::not_assessed,
          .reason = "'window' does not say Panel_Filling.FactoryFitted",
          .also_moves = {"*"}},
     }}};

const RegisterCases kCostsOfProject{
    {.check = "quantities.costs",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 199.86},
             {.label = "no rates",
              .change = drop_settings("quantities.rates."),
              .reason = "the settings give no rates of materials"},
             {.label = "a material without a rate",
              .change = drop_settings("quantities.rates.2."),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 2 of 2 panels: 'P01', 'P02'; see each panel for what is missing"},
             {.label = "a rate of a material that is in no panel is told",
              .change = [](Project&, Settings& settings) { add_rate(settings, 3, "soft wood", "m3", 400.0); },
              .verdict = Verdict::information,
              .value = 199.86},
         },
     .of_project = true}};

const RegisterCases kFixings{
    {.check = "quantities.fixings",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases = {
         {.label = "as made", .verdict = Verdict::information, .value = 96.0},
         {.label = "no fasteners in the export",
          .change = drop_parts(PartKind::fastener),
          .verdict = Verdict::not_assessed,
          .reason = "the export gives no fasteners (IfcMechanicalFastener) in this panel",
          .also_moves = {"quantities.mass", "quantities.loads", "quantities.costs"}},
         {.label = "a fastener that stands for no pieces",
          .change = change_panels([](Panel& panel) { panel.parts.back().count = 0; }),
          .verdict = Verdict::not_assessed,
          .reason = "fastener 'screws 4.0 x 50' stands for no pieces; give its count as an IfcQuantityCount; the "
                    "export gives no fasteners (IfcMechanicalFastener) in this panel",
          .also_moves = {"quantities.costs"}},
         {.label = "one piece",
          .change = change_panels([](Panel& panel) { panel.parts.back().count = 1; }),
          .verdict = Verdict::information,
          .value = 1.0,
          .also_moves = {"quantities.costs"}},
     }}};

const RegisterCases kFixingsOfProject{
    {.check = "quantities.fixings",
     .sound_project = sound_project,
     .sound_settings = sound_settings,
     .cases =
         {
             {.label = "the sum of both panels", .verdict = Verdict::information, .value = 192.0},
             {.label = "a panel without fasteners",
              .change = change_first([](Panel& panel) { panel.parts.pop_back(); }),
              .verdict = Verdict::not_assessed,
              .reason = "not assessed for 1 of 2 panels: 'P01'; see each panel for what is missing",
              .also_moves = {"quantities.mass", "quantities.loads", "quantities.costs"}},
         },
     .of_project = true}};

}  // namespace
