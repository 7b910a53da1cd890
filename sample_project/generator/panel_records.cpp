#include "sample_project/generator/panel_records.h"

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

namespace sample_export {

namespace {

/// Panels up to this place in the erection order stand on the day of the export.
constexpr int kErected = 44;
constexpr int kErectedADay = 6;
constexpr int kMadeADay = 3;
/// Joints of an infill panel as designed: beside it, and above it where the slab moves.
constexpr double kSideJoint_mm = 10.0;
constexpr double kHeadJoint_mm = 25.0;

std::string two_digits(int number) {
  return (number < 10 ? "0" : "") + std::to_string(number);
}

/// The `day`th working day from 2 March 2026, a Monday; weeks of five days.
std::string working_day(int day) {
  static constexpr int kDaysInMonth[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int month = 3;
  int date_of_month = 2 + day / 5 * 7 + day % 5;
  int year = 2026;
  while (date_of_month > kDaysInMonth[month - 1]) {
    date_of_month -= kDaysInMonth[month - 1];
    month = month % 12 + 1;
    if (month == 1) ++year;
  }
  return std::to_string(year) + "-" + two_digits(month) + "-" + two_digits(date_of_month);
}

/// A deviation of -2 to +2 mm that looks measured and repeats from run to run.
double deviation_mm(int order, int which) {
  const auto mixed = static_cast<std::uint32_t>(order * 7 + which * 3) * 2654435761U;
  return static_cast<double>((mixed >> 16U) % 5U) - 2.0;
}

/// Sizes as measured in the workshop, and of an infill panel the surveyed opening in the frame.
PropertySet as_built(const PlacedPanel& panel) {
  const int order = panel.erection_order;
  const double width_mm = panel.width_mm + deviation_mm(order, 1);
  const double height_mm = panel.height_mm + deviation_mm(order, 2);
  const double diagonal_mm = std::round(std::hypot(width_mm, height_mm));
  PropertySet set{"Panel_AsBuilt", {}};
  const auto add = [&set](const char* name, double size_mm) {
    set.properties.push_back(number(name, "IfcPositiveLengthMeasure", size_mm));
  };
  add("Width", width_mm);
  add("Height", height_mm);
  add("Thickness", panel.type->thickness_mm());
  add("Diagonal1", diagonal_mm + deviation_mm(order, 4));
  add("Diagonal2", diagonal_mm + deviation_mm(order, 5));
  if (panel.type->arrangement != "INFILL") return set;
  add("FrameOpeningWidth", panel.width_mm + 2.0 * kSideJoint_mm + deviation_mm(order, 6));
  add("FrameOpeningHeight", panel.height_mm + kHeadJoint_mm + deviation_mm(order, 7));
  return set;
}

/// Two corners join infill and oversail panels. No detail of one arrangement stands for them, so their designer
/// declares Ψ; and the feature panel rises over the roof.
std::vector<PropertySet> junctions(const PlacedPanel& panel) {
  constexpr double kInfillPsi_w_per_mk = 0.15;
  constexpr double kOversailPsi_w_per_mk = 0.04;
  constexpr double kFeatureParapet_mm = 1000.0;
  const std::string slot = panel.mark.substr(panel.mark.size() - 2);
  if (panel.type->spans_storeys()) {
    return {{"Panel_Junction", {number("ParapetHeight", "IfcLengthMeasure", kFeatureParapet_mm)}}};
  }
  const auto declared = [](const char* side, double psi) {
    return std::vector<PropertySet>{{"Panel_Junction", {number(std::string(side) + "Transmittance", "IfcReal", psi)}}};
  };
  if (panel.elevation == "East" && slot == "01") return declared("Left", kInfillPsi_w_per_mk);
  if (panel.elevation == "South" && slot == "08") return declared("Right", kInfillPsi_w_per_mk);
  if (panel.elevation == "North" && slot == "06") return declared("Right", kOversailPsi_w_per_mk);
  if (panel.elevation == "West" && slot == "01") return declared("Left", kOversailPsi_w_per_mk);
  return {};
}

}  // namespace

std::vector<PropertySet> panel_records(const PlacedPanel& panel) {
  const int order = panel.erection_order;
  const int made = (order - 1) / kMadeADay;
  std::vector<PropertySet> sets;
  sets.push_back({"Panel_Identity",
                  {identifier("Mark", panel.mark), integer("ErectionOrder", order), label("Elevation", panel.elevation),
                   label("Arrangement", std::string(panel.type->arrangement))}});
  sets.push_back({"Pset_ManufacturerOccurrence", {identifier("SerialNumber", "2026-" + std::to_string(1000 + order))}});
  sets.push_back({"Panel_Inspection",
                  {label("Result", "ACCEPTED"), label("Inspector", "Workshop quality inspector"),
                   date("Date", working_day(made + 1))}});
  sets.push_back(as_built(panel));
  if (order <= kErected) {
    sets.push_back({"Panel_Install",
                    {date("Date", working_day(25 + (order - 1) / kErectedADay)), label("Team", "Erection team A"),
                     label("Result", "ACCEPTED")}});
  }
  for (PropertySet& set : junctions(panel)) sets.push_back(std::move(set));
  return sets;
}

}  // namespace sample_export
