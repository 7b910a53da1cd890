// Wrong projects that quantities, workshop and site must notice.
#include <utility>

#include "tests/consistency/wrong_project.h"

namespace panel_dossier::consistency {

namespace {

constexpr const char* kSoftwood = "Structural softwood C24";
constexpr const char* kSheathing = "Oriented strand board OSB/3";

std::string as_built(const char* name) {
  return std::string("Panel_AsBuilt.") + name;
}

std::string lorry(const char* name) {
  return std::string("quantities.transport.") + name;
}

/// One rate in place of the file.
Edit set_rate(const char* unit, double rate) {
  return both(drop_setting("quantities.rates_file"),
              set_setting("quantities.rates", nlohmann::json::array({{{"material", kSheathing},
                                                                      {"unit", unit},
                                                                      {"rate", rate},
                                                                      {"currency", "GBP"},
                                                                      {"source", "quotation"}}})));
}

constexpr const char* kWasteRate = "Panel_EnvironmentalDeclaration.WasteRateA5";

/// The plans of so few panels lose more than those of the whole project, for which the rates are declared.
Edit rates_of_few() {
  return set_property(kWasteRate, "0.32");
}

WrongCase waste(const char* label, Edit edit, const char* words) {
  return {label, std::move(edit), "quantities.waste", words, rates_of_few()};
}

const RegisterWrongCases kQuantitiesCases{{
    {"rejected at the inspection", set_property("Panel_Inspection.Result", "REJECTED"), "quantities.records",
     "rejected at its inspection"},
    {"no day of assessment for the records", drop_setting("project.assessment_date"), "quantities.records",
     "set project.assessment_date"},
    {"no start of the works for the records", drop_setting("quantities.start_date"), "quantities.records",
     "set quantities.start_date"},
    {"an open inspection", set_property("Panel_Inspection.Result", "OPEN"), "quantities.records", "'OPEN'"},
    {"an inspection of another word", set_property("Panel_Inspection.Result", "FINE"), "quantities.records", "FINE"},
    {"no result of the inspection", drop_property("Panel_Inspection.Result"), "quantities.records",
     "state Panel_Inspection.Result"},
    {"no day of the inspection", drop_property("Panel_Inspection.Date"), "quantities.records",
     "state Panel_Inspection.Date"},
    {"no panel has a record of its installation, though all are due",
     both(both(drop_property("Panel_Install.Date"), drop_property("Panel_Install.Result")),
          drop_property("Panel_Install.Team")),
     "quantities.records", "without a day instead of"},
    {"accepted although its size as built fails", set_property("Panel_AsBuilt.Width", "2600"), "quantities.records",
     "its size as built fails"},
    {"rejected when installed", set_property("Panel_Install.Result", "REJECTED"), "quantities.records",
     "rejected at its installation"},
    {"an open installation", set_property("Panel_Install.Result", "OPEN"), "quantities.records", "'OPEN'"},
    {"installed before it was inspected", set_property("Panel_Inspection.Date", "2026-05-29"), "quantities.records",
     "before it was inspected"},
    {"inspected on a day that does not exist", set_property("Panel_Inspection.Date", "2026-02-30"),
     "quantities.records", "2026-02-30"},
    {"installed on a day that does not exist", set_property("Panel_Install.Date", "2026-04-31"), "quantities.records",
     "2026-04-31"},
    {"installed on a Sunday", set_property("Panel_Install.Date", "2026-05-31"), "quantities.records",
     "a day without work"},
    {"installed on a holiday", set_property("Panel_Install.Date", "2026-05-25"), "quantities.records",
     "a day without work"},
    {"installed after the assessment", set_property("Panel_Install.Date", "2026-06-02"), "quantities.records",
     "lies after project.assessment_date"},
    {"bars in mm", set_setting("quantities.stock_lengths_m", nlohmann::json::array({4800, 6000})),
     "quantities.stock_yield", "outside of the usual"},
    {"one bar of many in mm", set_setting("quantities.stock_lengths_m", nlohmann::json::array({4.8, 6000})),
     "quantities.stock_yield", "outside of the usual"},
    {"bars shorter than the studs", set_setting("quantities.stock_lengths_m", nlohmann::json::array({1.2})),
     "quantities.stock_yield", "longer than any stock length"},
    {"no bars", drop_setting("quantities.stock_lengths_m"), "quantities.stock_yield", "stock_lengths_m"},
    {"a saw cut in mm", set_setting("quantities.saw_kerf_m", 4.0), "quantities.stock_yield", "outside of the usual"},
    {"no saw cut", set_setting("quantities.saw_kerf_m", 0.0), "quantities.sheet_yield", "outside of the usual"},
    {"no saw", drop_setting("quantities.saw_kerf_m"), "quantities.sheet_yield", "is missing"},
    {"defects in mm", set_setting("quantities.stock_defect_allowance_m", 30.0), "quantities.stock_yield",
     "outside of the usual"},
    {"oversize in mm", set_setting("quantities.insulation_oversize_m", 5.0), "quantities.sheet_yield",
     "outside of the usual"},
    {"sheets in mm",
     set_setting("quantities.sheet_sizes_m.0",
                 nlohmann::json({{"material", kSheathing}, {"width", 1200}, {"length", 2400}})),
     "quantities.sheet_yield", "outside of the usual"},
    {"no sheets", drop_setting("quantities.sheet_sizes_m"), "quantities.sheet_yield", "sheet_sizes_m"},
    {"half a panel a batch", set_setting("quantities.panels_per_batch", 0), "refused", "panels_per_batch"},
    {"no rates of the materials", set_rate("m3", 400.0), "quantities.costs", "has no rate"},
    {"a rate for the square metre of what is priced by the cubic metre", set_rate("m2", 900.0), "quantities.costs",
     "correct rate or unit"},
    {"a rate for the cubic metre of what is priced by the square metre", set_rate("m3", 8.0), "quantities.costs",
     "correct rate or unit"},
    {"a rate of nothing", set_rate("m3", 0.0), "quantities.costs", "outside of the usual"},
    {"densities ten times off", scale_of_material(kSheathing, "Pset_MaterialCommon.MassDensity", 0.1),
     "quantities.loads", "outside of the usual"},
    {"no density", drop_property("Pset_MaterialCommon.MassDensity"), "quantities.mass", "MassDensity"},
    {"fixings that weigh nothing", scale_property("Panel_FastenerQuantities.GrossWeight", -1.0), "refused",
     "cannot be"},
    {"a sheet missing in the mass", drop_first_part("IfcPlate", ""), "quantities.mass", "unfilled"},
    {"a stud twice in the mass", double_first_part("IfcMember", "Stud"), "quantities.mass", "is there twice"},
    {"a stud twice in the cutting list", double_first_part("IfcMember", "Stud"), "quantities.cutting_list",
     "is there twice"},
    {"no material of the studs", scale_of_material(kSoftwood, "Pset_MaterialCommon.MassDensity", 10.0),
     "quantities.centre_of_gravity", "outside of the usual"},
    {"a panel 2 cm too wide as built", set_property(as_built("Width"), "9999"), "quantities.as_built_size",
     "out of tolerance"},
    {"as built in m", scale_property(as_built("Width"), 0.001), "refused", "cannot be"},
    {"as built ten times as thick", scale_property(as_built("Thickness"), 10.0), "refused", "cannot be"},
    {"not measured as built", drop_property(as_built("Height")), "quantities.as_built_size", "Panel_AsBuilt.Height"},
    {"one diagonal not measured", drop_property(as_built("Diagonal1")), "quantities.as_built_size",
     "Panel_AsBuilt.Diagonal1"},
    {"no diagonal measured", both(drop_property(as_built("Diagonal1")), drop_property(as_built("Diagonal2"))),
     "quantities.as_built_size", "Diagonal1 and Diagonal2 are missing"},
    {"equal diagonals of another panel",
     both(set_property(as_built("Diagonal1"), "5000"), set_property(as_built("Diagonal2"), "5000")),
     "quantities.as_built_size", "not that of the target width and height"},
    {"no opening surveyed",
     both(drop_property(as_built("FrameOpeningWidth")), drop_property(as_built("FrameOpeningHeight"))),
     "quantities.as_built_size", "FrameOpeningWidth and FrameOpeningHeight are missing"},
    {"an opening narrower than the panel", scale_property(as_built("FrameOpeningWidth"), 0.99),
     "quantities.as_built_size", "too narrow"},
    {"a tolerance in mm", set_setting("quantities.size_tolerance_m", 3.0), "quantities.as_built_size",
     "outside of the usual"},
    {"no tolerance", drop_setting("quantities.size_tolerance_m"), "quantities.as_built_size", "are missing"},
    {"squareness in mm", set_setting("quantities.squareness_tolerance_m", 5.0), "quantities.as_built_size",
     "outside of the usual"},
    {"joints in mm", set_setting("quantities.least_joint_m", 6.0), "quantities.as_built_size", "outside of the usual"},
    {"a crew of nobody", set_setting("quantities.crew.people", 0.01), "quantities.programme", "outside of the usual"},
    {"a crew a thousand times as fast", set_setting("quantities.crew_area_rate_m2_per_h", 20600.0),
     "quantities.erection_time", "outside of the usual"},
    {"an output that the cycle of a lift contradicts", set_setting("quantities.crew_area_rate_m2_per_h", 60.0),
     "quantities.erection_time", "more than a quarter away"},
    {"the hook's speed in m/s", set_setting("quantities.lift_cycle.hoist_m_per_min", 0.33), "quantities.programme",
     "outside of the usual"},
    {"panels placed in no time", set_setting("quantities.lift_cycle.place_min", 0.0), "quantities.erection_time",
     "outside of the usual"},
    {"a site that stores too little", set_setting("quantities.site_storage_m2", 20.0), "quantities.site_storage",
     "more panels wait"},
    {"no level of the ground", drop_setting("building.ground_level_m"), "quantities.erection_time", "is missing"},
    {"the ground at another level", set_setting("building.ground_level_m", -400.0), "quantities.erection_time",
     "more than a quarter away"},
    {"twenty cranes", set_setting("quantities.cranes", 20), "quantities.programme", "outside of the usual"},
    {"a day of half an hour", set_setting("quantities.hours_per_day", 0.5), "quantities.programme",
     "outside of the usual"},
    {"no first day", drop_setting("quantities.start_date"), "quantities.programme", "is missing"},
    {"a first day that does not exist", set_setting("quantities.start_date", "2026-02-30"), "refused", "start_date"},
    {"no working days", set_setting("quantities.working_days", nlohmann::json::array()), "quantities.programme",
     "working_days"},
    {"no order of erection", drop_property("Panel_Identity.ErectionOrder"), "quantities.programme", "ErectionOrder"},
    {"one place for all in the order", set_property("Panel_Identity.ErectionOrder", "3"), "quantities.deliveries",
     "share a place"},
    {"a bed in mm", set_setting("structural.transport.bed_length_m", 13600.0), "quantities.deliveries",
     "outside of the usual"},
    {"a payload in t", set_setting("structural.transport.payload_kg", 24.0), "quantities.deliveries",
     "outside of the usual"},
    {"no payload", drop_setting("structural.transport.payload_kg"), "quantities.deliveries", "payload_kg"},
    {"limits of the axles in t", set_setting(lorry("axle_group_limit_kg"), 18.0), "quantities.deliveries",
     "outside of the usual"},
    {"limits of the kingpin in t", set_setting(lorry("kingpin_limit_kg"), 11.0), "quantities.deliveries",
     "outside of the usual"},
    {"a kingpin in mm", set_setting(lorry("kingpin_m"), 1650.0), "quantities.deliveries", "outside of the usual"},
    {"racks in t", set_setting(lorry("rack_kg"), 150000.0), "quantities.deliveries", "outside of the usual"},
    {"no width of the bed", drop_setting(lorry("bed_width_m")), "quantities.deliveries", "bed_width_m"},
    {"spacers in mm", set_setting(lorry("spacer_m"), 100.0), "quantities.deliveries", "outside of the usual"},
    {"no rack that the panels stand in", set_setting(lorry("rack_base_m"), 0.0), "quantities.deliveries",
     "outside of the usual"},
    {"racks that weigh nothing", set_setting(lorry("rack_kg"), 0.0), "quantities.deliveries", "outside of the usual"},
    waste("a rate of 0 of the boards against their plan", set_of_material(kSheathing, kWasteRate, "0"),
          "the plan loses"),
    waste("a rate of 0 of the bars against their plan", set_of_material(kSoftwood, kWasteRate, "0"),
          "of 'Structural softwood C24' the plan loses"),
    waste("a rate of 0 throughout", set_property(kWasteRate, "0"), "WasteRateA5 declares 0.0 %"),
    waste("the bars' rate for the boards", set_of_material(kSheathing, kWasteRate, "0.08"),
          "of 'Oriented strand board OSB/3' the plan loses"),
    waste("a rate of per cents of a per cent", scale_of_material(kSheathing, kWasteRate, 0.01), "declares 0.3 %"),
    waste("a rate of most of the material", set_of_material(kSheathing, kWasteRate, "0.9"), "outside of the usual"),
    waste("no rate of any material", drop_property(kWasteRate), "no usable Panel_EnvironmentalDeclaration.WasteRateA5"),
    waste("no plan of the sheets", drop_setting("quantities.sheet_sizes_m"), "quantities.sheet_yield has no plan"),
    waste("no plan of the bars", drop_setting("quantities.stock_lengths_m"), "quantities.stock_yield has no plan"),
    waste("bars of a plan in mm", set_setting("quantities.stock_lengths_m", nlohmann::json::array({4800, 6000})),
          "outside of the usual"),
    waste("the saw of a plan in mm", set_setting("quantities.saw_kerf_m", 4.0), "outside of the usual"),
    waste("defects of a plan in mm", set_setting("quantities.stock_defect_allowance_m", 30.0), "outside of the usual"),
    waste("sheets of another material",
          set_setting("quantities.sheet_sizes_m",
                      nlohmann::json::array({{{"material", "Plywood"}, {"width", 1.2}, {"length", 2.4}}})),
          "has no sheet of"),
    waste("a stud twice in the plan", double_first_part("IfcMember", "Stud"), "is there twice"),
    {"a sheet missing in the cutting list", drop_first_part("IfcPlate", ""), "quantities.cutting_list", "unfilled"},
    {"a sheet missing in the plan of sheets", drop_first_part("IfcPlate", ""), "quantities.sheet_yield", "unfilled"},
    waste("a sheet missing in the plan", drop_first_part("IfcPlate", ""), "unfilled"),
}};

}  // namespace

}  // namespace panel_dossier::consistency
